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
  | { readonly kind: "battery"; readonly chargingOhm: number; readonly chargingVolt: number }
  | { readonly kind: "fold-back"; readonly limitAmpere: number; readonly foldedOhm: number }
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
  /** Module without whose supply it does nothing. */
  readonly module: string | undefined;
  /** How far off the resistance may be, as a share. */
  readonly tolerance: number;
  /** How far off the voltage may be, in volt. */
  readonly voltTolerance: number;
}

/** A relay coil that works contacts. */
export interface CoilPart {
  readonly key: string;
  readonly from: number;
  readonly to: number;
  readonly pullInVolt: number;
  readonly dropOutVolt: number;
}

/** A module that needs a supply. */
export interface ModuleNeed {
  readonly id: string;
  readonly positive: number;
  readonly negative: number;
  readonly leastVolt: number;
}

/** Something that was taken for granted and that a reading may hang on. */
export interface Assumption {
  readonly code: "typical" | "missing" | "model" | "standard";
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
