import type { Hazard } from "../../model/index.ts";
import type { FaultMode } from "./candidate.ts";

/** Sorts of things that weights are given for. */
export type ThingSort =
  | "sealed-contact"
  | "unsealed-contact"
  | "ring"
  | "splice-end"
  | "wire"
  | "moving-part"
  | "actuator"
  | "sensor"
  | "resistor"
  | "module-part"
  | "fuse"
  | "supply"
  | "plug"
  | "cavity-pair";

/** Prior weights as data: what the planner starts from, shown to the person and open to change. */
export interface PriorTable {
  /** Where the figures come from. */
  readonly origin: string;
  /** Weight of one thing of a sort; of a wire, of one metre. */
  readonly things: Readonly<Record<ThingSort, number>>;
  /** How the weight of a thing is shared out over the ways it fails. */
  readonly modes: Readonly<Record<ThingSort, Readonly<Partial<Record<FaultMode, number>>>>>;
  /** Factors for dangers of the place, by kind of hazard. */
  readonly hazards: Readonly<Partial<Record<Hazard["kind"], number>>>;
  /** Opened, repaired or added lately. */
  readonly recentWork: number;
  /** The same for what only careless work leaves behind: swapped wires, a plug left off. */
  readonly recentWorkMistake: number;
  /** A joint that carries more than 30 A. */
  readonly highCurrent: number;
  /** Wet weather, on what suffers from water in a wet place. */
  readonly wetComplaint: number;
  /** The fault comes and goes: on intermittent candidates, and on all others. */
  readonly comesAndGoes: { readonly intermittent: number; readonly steady: number };
  /** The fault is always there. */
  readonly alwaysThere: { readonly intermittent: number; readonly steady: number };
  /** Share of a fault that is not among the candidates. */
  readonly somethingElse: number;
}

/**
 * The starting weights. No count of harness faults by place was found for trucks or off-highway machines, so these are judgement: joints
 * before wires, what moves or gets wet before what lies still, a control unit last.
 *
 * Source: common practice, no source. That poor connections lead is an expert statement of US Army manuals (TM 9-6115-729-24) without a
 * figure.
 */
export const PRIORS: PriorTable = {
  origin: "common practice, no source",
  things: {
    "sealed-contact": 1,
    "unsealed-contact": 1.3,
    ring: 1.5,
    "splice-end": 0.8,
    wire: 0.3,
    "moving-part": 1.5,
    actuator: 1.5,
    sensor: 1,
    resistor: 0.4,
    "module-part": 0.1,
    fuse: 0.4,
    supply: 0.4,
    plug: 0.25,
    "cavity-pair": 0.05,
  },
  modes: {
    "sealed-contact": { open: 0.4, resistance: 0.35, intermittent: 0.25 },
    "unsealed-contact": { open: 0.35, resistance: 0.4, intermittent: 0.25 },
    ring: { open: 0.2, resistance: 0.6, intermittent: 0.2 },
    "splice-end": { open: 0.35, resistance: 0.4, intermittent: 0.25 },
    wire: { open: 0.35, "short-to-ground": 0.27, "short-to-supply": 0.03, resistance: 0.1, intermittent: 0.25 },
    "moving-part": { "stuck-open": 0.45, "stuck-closed": 0.2, resistance: 0.2, open: 0.15 },
    actuator: { open: 0.55, bridge: 0.25, resistance: 0.2 },
    sensor: { open: 0.3, bridge: 0.15, drift: 0.55 },
    resistor: { open: 0.5, bridge: 0.2, drift: 0.3 },
    "module-part": { dead: 0.7, "always-on": 0.3 },
    fuse: { blown: 1 },
    supply: { drift: 1 },
    plug: { unplugged: 1 },
    "cavity-pair": { bridge: 0.8, swapped: 0.2 },
  },
  hazards: { flexing: 3, chafe: 2, hot: 2, wet: 2, corrosive: 2, rotating: 1.5, crush: 1.5, oil: 1.2, step: 1.2 },
  recentWork: 4,
  recentWorkMistake: 20,
  highCurrent: 2,
  wetComplaint: 3,
  comesAndGoes: { intermittent: 6, steady: 0.3 },
  alwaysThere: { intermittent: 0.1, steady: 1 },
  somethingElse: 0.02,
};
