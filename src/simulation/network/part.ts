import { keptFor } from "../../base/index.ts";
import type { Component, Element } from "../../harness-model/index.ts";
import type { Fault } from "../faults/fault.ts";
import type { BranchShape } from "../solver/branch-set.ts";

/** What a part is, for its tolerance and for telling what a reading hangs on. */
export type PartGroup =
  | "wire"
  | "joint"
  | "bar"
  | "switch"
  | "fuse"
  | "resistor"
  | "sensor"
  | "coil"
  | "load"
  | "driver"
  | "bias"
  | "supply"
  | "regulator"
  | "diode"
  | "fault"
  | "tester"
  | "outside";

/** What makes a part change with the voltages around it. */
export type Control =
  | { readonly kind: "contact"; readonly coil: string; readonly form: "make" | "break" }
  | { readonly kind: "diode" }
  /** Gives below its voltage, takes little between that and its charging voltage; `wholeOhm` is its inner resistance without a fault. */
  | {
      readonly kind: "battery";
      readonly wholeOhm: number;
      readonly charging: { readonly volt: number; readonly ohm: number } | undefined;
    }
  /** An alternator or regulator: it gives current and takes none; above its limit it folds back. */
  | {
      readonly kind: "giver";
      readonly foldBack: { readonly limitAmpere: number; readonly ohm: number } | undefined;
    }
  /** Draws as it says only while it has volts to work with. */
  | { readonly kind: "electronics" }
  | { readonly kind: "duty"; readonly share: number };

/** A resistance with a voltage in series between two nodes; where it runs stands in the shape of its list. */
export interface Part {
  /** Unique: the edge it comes from, with a word after it if the edge has several parts. */
  readonly key: string;
  /** What a fault names: wire, contact, element, or a wire's end such as `W78@SP13`. */
  readonly owner: string;
  readonly group: PartGroup;
  readonly ohm: number;
  readonly volt: number;
  /** False where it is not there now: switch open, connector unplugged. */
  readonly present: boolean;
  readonly control: Control | undefined;
  /** Control unit without which it does nothing. */
  readonly module: string | undefined;
  /**
   * How its control unit has to stand for it to work: awake; woken, whatever its supply is; with its own consumption on; or it never works
   * in this state.
   */
  readonly worksWhile: "awake" | "woken" | "loaded" | "never";
  /** What it is to its circuit while it does not work, in ohm: Infinity, or what hides in electronics that sleep. */
  readonly asleepOhm: number;
  /** How far off the resistance may be, as a share. */
  readonly tolerance: number;
  /** How far off the voltage may be, in volt. */
  readonly voltTolerance: number;
}

/** A relay coil that works contacts, by the current in its winding: an open one has full volts and pulls nothing. */
export interface CoilPart {
  readonly key: string;
  /** Number of its winding among the parts. */
  readonly at: number;
  readonly from: number;
  readonly to: number;
  readonly pullInAmpere: number;
  readonly dropOutAmpere: number;
}

/** A control unit that needs a supply and, where the document has one, a wake input. */
export interface ModuleNeed {
  readonly id: string;
  readonly positive: number;
  readonly negative: number;
  /** Node that must stand `leastVolt` above `negative` too, such as the ignition input. */
  readonly wake: number | undefined;
  readonly leastVolt: number;
}

/** Something that was taken for granted and that a reading may hang on. */
export interface Assumption {
  readonly code: "typical" | "missing" | "model" | "standard" | "blown";
  /** What it is about: keys of parts or elements, or nothing for the whole. */
  readonly of: string;
  readonly text: string;
}

/** The machine as parts between nodes; nodes beyond those of the harness are ends of wires and places of faults. */
export interface PartList {
  readonly shape: BranchShape;
  readonly parts: readonly Part[];
  /** Names of the nodes, those of the harness first. */
  readonly nodeKeys: readonly string[];
  readonly coils: readonly CoilPart[];
  readonly modules: readonly ModuleNeed[];
  readonly assumptions: readonly Assumption[];
  /** The node at 0 V. */
  readonly reference: number;
}

/** An element with the nodes of its edge. */
export interface PlacedElement {
  /** Key of the edge: `A3.F3`, or `B3.cell.top`. */
  readonly edgeKey: string;
  readonly key: string;
  readonly component: Component;
  readonly element: Element;
  readonly from: number;
  readonly to: number;
  /** First node of the other edge of a divider; the same as `from` for anything else. */
  readonly top: number;
}

/** Whether a stand lets current through at all. */
export function isOn(elementState: ElementState): boolean {
  return (
    elementState === "closed" ||
    elementState === "on" ||
    (typeof elementState === "object" && elementState.dutyPercent > 0)
  );
}

/** The control of something that is on for a share of the time only. */
export function dutyOf(elementState: ElementState): Control | undefined {
  if (typeof elementState !== "object" || elementState.dutyPercent <= 0 || elementState.dutyPercent >= 100)
    return undefined;
  return { kind: "duty", share: elementState.dutyPercent / 100 };
}

/** Whether a part that has this resistance now is electronics asleep: what it hides is no resistor. */
export function isHidden(part: Part | undefined, ohm: number | undefined): boolean {
  return part !== undefined && part.asleepOhm !== Infinity && ohm === part.asleepOhm;
}

/** How a switch, contact, driver, source or load stands; a share of the time is a duty in percent. */
export type ElementState = "open" | "closed" | "off" | "on" | { readonly dutyPercent: number };

/** One thing set by hand, in place of what the state says. */
interface ElementSetting {
  /** Element key, such as `S1.run`. */
  readonly of: string;
  readonly is: ElementState;
}

/** Everything that decides what a meter shows, apart from the machine itself. The same situation always gives the same answer. */
export interface OperatingConditions {
  /** Id of a machine state. Without one everything is at rest: switches as they rest, drivers off, the battery connected. */
  readonly state?: string;
  readonly settings?: readonly ElementSetting[];
  readonly faults?: readonly Fault[];
  /** Connectors, or halves of them, that are unplugged: both halves stay where they are. */
  readonly unplugged?: readonly string[];
  /** Test adapters that are fitted. One that sits in line adds a second contact in each cavity it carries. */
  readonly adapters?: readonly string[];
  /** Quantities of the outside world in place of those of the state: temperature, pressure... */
  readonly quantities?: readonly { readonly name: string; readonly value: number }[];
  /** Temperature of wires and windings in degrees C, in place of that of the document. */
  readonly temperatureC?: number;
}

/** Something in the question that the machine does not have. */
export interface QuestionProblem {
  readonly code:
    | "unknown-state"
    | "unknown-target"
    | "not-fitted"
    | "wrong-target"
    | "unknown-connector"
    | "unknown-adapter"
    | "unknown-point"
    | "no-reference"
    | "out-of-range";
  /** What was asked for, as written. */
  readonly of: string;
  readonly text: string;
}

/** Numbers of the parts that follow the voltages around them: most parts do not. */
export function controlledParts({ parts }: PartList): readonly number[] {
  return numbersOfControlled(parts);
}

const numbersOfControlled = keptFor((parts: readonly Part[]): readonly number[] =>
  [...parts.keys()].filter((at) => parts[at]?.control),
);
