import type { Item } from "../../connectivity/index.ts";
import type { Component, Connector, Element, Wire } from "../../harness-model/index.ts";

/** What every thing of a diagram has. */
interface ThingCommon {
  /** Unique, and the same whatever the order of the lists of the document. */
  readonly key: string;
  /** The item that it stands for. */
  readonly item: Item;
  /** Whether it belongs to what was asked for. */
  readonly strong: boolean;
}

/** What a joint looks like. */
export type JointLook = "supply" | "ground" | "splice" | "stud" | "inner" | "contact" | "open";

/** A point where lines meet or end. */
export interface Joint extends ThingCommon {
  readonly kind: "joint";
  readonly look: JointLook;
  readonly node: number;
  /** Whether it is a ground point on the frame. */
  readonly isFrame: boolean;
  /** Where the ways go on that are not drawn. */
  readonly stubs: readonly string[];
  readonly component: string | undefined;
}

/** One half of a gate. */
export interface GateHalf {
  readonly node: number;
  readonly name: string;
  /** Whether its contacts are pins; undefined where that is not known. */
  readonly hasPins: boolean | undefined;
}

/** An inline connector: one half over the other, or one half alone. */
export interface Gate extends ThingCommon {
  readonly kind: "gate";
  readonly halves: readonly GateHalf[];
}

/** A pin on the outline of a part. */
export interface Pin extends ThingCommon {
  readonly kind: "pin";
  readonly component: string;
  readonly name: string;
  /** The cavity alone. */
  readonly cavity: string;
  /** The contact that wires end at. */
  readonly outer: number;
  readonly nodes: readonly number[];
}

/** A part with one current path. */
export interface Part extends ThingCommon {
  readonly kind: "part";
  readonly component: Component;
  readonly element: Element;
  readonly edge: number;
}

/** A pin of a box. */
export interface BoxPin {
  readonly key: string;
  readonly item: Item;
  readonly name: string;
  readonly nodes: readonly number[];
  /** Label of its net. */
  readonly net: string | undefined;
}

/** A control unit, a sensor, or a part whose inside is not known. */
export interface Box extends ThingCommon {
  readonly kind: "box";
  readonly component: Component | undefined;
  readonly connector: Connector | undefined;
  readonly pins: readonly BoxPin[];
  /** Numbers of the edges of the elements that are drawn in it. */
  readonly inside: readonly number[];
}

/** A thing of a diagram. */
export type Thing = Joint | Gate | Pin | Part | Box;

/** An end of a line: a thing and, of a box, the pin. */
export interface LineEnd {
  readonly thing: number;
  readonly pin?: string;
}

/** A line between two things; one without wire lies inside a part. */
export interface Line {
  readonly key: string;
  readonly ends: readonly [LineEnd, LineEnd];
  readonly wire: Wire | undefined;
  readonly edge: number | undefined;
  readonly strong: boolean;
}

/** Things and the lines between them, without any direction. */
export interface DiagramGraph {
  readonly things: readonly Thing[];
  readonly lines: readonly Line[];
}
