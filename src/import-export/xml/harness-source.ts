import type { ImportPlace } from "../import-problem.ts";
import type { ComponentInput, PartInput } from "../draft/draft-parts.ts";
import type { Account, Origins } from "./source-facts.ts";

/**
 * What the file says of when a thing is fitted: with any of these options, by their keys. Undefined where it does not say: a wire is
 * then always fitted, anything else wherever one of its wires is.
 */
export type FittedWith = ReadonlySet<string> | undefined;

/**
 * What every thing of a source has: the key it is referred to by inside the file, the name it is called by, its place, and the
 * elements that say what it carries.
 */
export interface SourceItem {
  readonly key: string;
  readonly name: string;
  readonly at: ImportPlace;
  readonly madeOf: Origins;
}

/** A part of the file, with the elements that describe it. */
export interface SourcePart {
  readonly part: PartInput;
  readonly madeOf: Origins;
}

/** What is fitted in a cavity, of one sort. */
export interface SourceFitting extends SourcePart {
  readonly what: "terminal" | "seal" | "plug";
}

/** A cavity of a connector. */
export interface SourceCavity extends SourceItem {
  readonly sealed: boolean;
  readonly fitted: readonly SourceFitting[];
}

/** What a connector of the file is in fact: a plug, or a place where wires are joined, screwed on, or end. */
export type ConnectorUse = "plug" | "splice" | "ring" | "open-end";

/** A connector, splice, ring terminal or open end; `box` is the key of the component whose own face it is. */
export interface SourceConnector extends SourceItem {
  readonly use: ConnectorUse;
  readonly label: string | undefined;
  readonly box: string | undefined;
  readonly cavities: readonly SourceCavity[];
  /** Its housing, splice or ring terminal. */
  readonly part: SourcePart | undefined;
  readonly fitted: FittedWith;
  /** Key of the node it sits at. */
  readonly node: string | undefined;
  /** A way along a segment, where it sits at no node. */
  readonly spot?: { readonly segment: string; readonly offsetMm: number; readonly fromEnd: boolean };
}

/** A contact point: one potential. Everything that refers to it is joined. */
export interface SourceContact {
  readonly key: string;
  readonly connector: string;
  readonly cavities: readonly string[];
  readonly madeOf: Origins;
}

/** Where a wire is contacted; `position` runs from 0 at its start to 1 at its end. */
export interface SourceEnd {
  readonly contact: string;
  readonly position: number;
}

/** A wire or core. */
export interface SourceWire extends SourceItem {
  readonly ends: readonly SourceEnd[];
  readonly colours: readonly RawColour[];
  readonly crossSectionMm2: number | undefined;
  readonly lengthMm: number | undefined;
  readonly signal: string | undefined;
  readonly group: string | undefined;
  readonly number: string | undefined;
  readonly type: string | undefined;
  readonly part: SourcePart | undefined;
  readonly fitted: FittedWith;
}

/** An end of an element: a cavity of the component's own connectors, or a named point inside it. */
export type SourceTerminal = { readonly cavity: string } | { readonly inner: string };

/** An element of a component, its ends not yet addresses. */
export interface SourceElement {
  readonly element: ElementFacts;
  readonly between: readonly [SourceTerminal, SourceTerminal];
  readonly fitted: FittedWith;
  readonly madeOf: Origins;
}

type Element = ComponentInput["elements"][number];
type DistributiveOmit<Thing, Name extends string> = Thing extends unknown ? Omit<Thing, Name> : never;

/** An element as plain data without its ends. */
export type ElementFacts = DistributiveOmit<
  Extract<Element, { kind: "bar" | "fuse" | "coil" | "contact" }>,
  "between" | "when"
>;

/** A component that the file describes: a fuse or relay carrier, a module. */
export interface SourceBox extends SourceItem {
  readonly label: string | undefined;
  readonly kind: ComponentInput["kind"];
  readonly part: SourcePart | undefined;
  readonly elements: readonly SourceElement[];
  readonly fitted: FittedWith;
  readonly note: string | undefined;
}

/** A place where segments meet; coordinates in any unit, two or three of them. */
export interface SourceNode extends SourceItem {
  readonly position: readonly number[] | undefined;
}

/** A segment between two nodes. */
export interface SourceSegment extends SourceItem {
  readonly from: string;
  readonly to: string;
  readonly lengthMm: number | undefined;
  readonly covering: string | undefined;
  readonly clips: string | undefined;
}

/** The segments a wire runs through, in order from either end. */
export interface SourceRoute {
  readonly wire: string;
  readonly segments: readonly string[];
  readonly at: ImportPlace;
  readonly madeOf: Origins;
}

/** Where the harness of a file runs. */
export type SourceTopology = Pick<HarnessSource, "nodes" | "segments" | "routes">;

/** An option: a module, a variant. */
export interface SourceOption extends SourceItem {
  readonly label: string;
}

/** A build that the file lists. */
export interface SourceBuild extends SourceItem {
  readonly label: string;
  readonly options: readonly string[];
}

/** Two connectors of the file that plug into one another, with the cavities that meet; without pairs those of the same name meet. */
export interface SourceMating {
  readonly connectors: readonly [string, string];
  readonly cavities: readonly (readonly [string, string])[];
  readonly at: ImportPlace;
  readonly madeOf: Origins;
}

/** What a harness file says, before it is put together: nothing is resolved but references inside the file. */
export interface HarnessSource {
  /** Takes down what becomes of the elements of the file. */
  readonly account: Account;
  readonly title: string;
  readonly source: string;
  readonly notes: readonly string[];
  /** Name of the harness, kept with each wire. */
  readonly harness: string | undefined;
  /** Nominal voltage where the file says it. */
  readonly nominalVolt: number | undefined;
  readonly options: readonly SourceOption[];
  readonly builds: readonly SourceBuild[];
  readonly nodes: readonly SourceNode[];
  readonly segments: readonly SourceSegment[];
  readonly routes: readonly SourceRoute[];
  readonly boxes: readonly SourceBox[];
  readonly connectors: readonly SourceConnector[];
  readonly contacts: readonly SourceContact[];
  readonly wires: readonly SourceWire[];
  readonly matings: readonly SourceMating[];
}

/** One colour of a wire as the file gives it. */
export interface RawColour {
  readonly role: "base" | "tracer" | "more";
  readonly text: string;
  /** The list of codes that the file names, if it does. */
  readonly system?: string;
}
