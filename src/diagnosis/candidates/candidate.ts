import { addTo } from "../../base/index.ts";
import type { Fault } from "../../simulation/index.ts";
import type { Harness, Hazard } from "../../harness-model/index.ts";
import type { Item } from "../../connectivity/index.ts";

/** How an item fails. `intermittent` behaves at rest and fails when it is moved, heated or wetted. */
export type FaultMode =
  | "open"
  | "high-resistance"
  | "short-to-ground"
  | "short-to-supply"
  | "bridge"
  | "blown"
  | "stuck-open"
  | "stuck-closed"
  | "dead"
  | "always-on"
  | "drift"
  | "unplugged"
  | "cross-wired"
  | "intermittent";

/** One factor of a starting probability, with the reason that is shown for it. */
export interface WeightFactor {
  readonly factor: number;
  readonly why: string;
}

/** A possible fault: one item with one mode of failure, at one or more severities. */
export interface Candidate {
  /** Stable name, such as `open W78` or `bridge XC1:4 XC1:5`. */
  readonly id: string;
  readonly mode: FaultMode;
  /** The item that fails. */
  readonly item: Item;
  /** What a person calls the fault. */
  readonly label: string;
  /** Name of the repair that removes it; candidates with one name need not be separated. */
  readonly repair: string;
  /** What is put into the solver at each severity; one list of faults a severity. */
  readonly levels: readonly (readonly Fault[])[];
  readonly factors: readonly WeightFactor[];
  /** Connectors, segments and zones where it can be seen, felt or made to show. */
  readonly places: CandidatePlaces;
}

/** Where a candidate is to be found. */
interface CandidatePlaces {
  readonly connectors: readonly string[];
  readonly segments: readonly string[];
  /** How a fault somewhere along the segments is shared among them, in their order; evenly where absent. */
  readonly segmentShares?: readonly number[];
  readonly zones: readonly string[];
}

/** The weight of a candidate: the product of its factors. */
export function candidateWeight({ factors }: Pick<Candidate, "factors">): number {
  return factors.reduce((product, { factor }) => product * factor, 1);
}

/** Sorts of items that weights are given for. */
export type ItemSort =
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
  /** Where the values come from. */
  readonly origin: string;
  /** Weight of one item of a sort; of a wire, of one metre. */
  readonly items: Readonly<Record<ItemSort, number>>;
  /** How the weight of an item is divided over its modes of failure. */
  readonly modes: Readonly<Record<ItemSort, Readonly<Partial<Record<FaultMode, number>>>>>;
  /** Factors for hazards of the location, by kind. */
  readonly hazards: Readonly<Partial<Record<Hazard["kind"], number>>>;
  /** Opened, repaired or added lately. */
  readonly recentWork: number;
  /** The same for what only careless work leaves behind: swapped wires, a connector left disconnected. */
  readonly recentWorkMistake: number;
  /** The part that is named as not working: it may be the part itself. */
  readonly named: number;
  /** A contact or crimp that carries more than 30 A. */
  readonly highCurrent: number;
  /** Wet weather, on what suffers from water in a wet place. */
  readonly wetComplaint: number;
  /** The fault is intermittent: on intermittent candidates, and on all others. */
  readonly comesAndGoes: { readonly intermittent: number; readonly steady: number };
  /** Nobody said when it shows, on intermittent candidates: whoever complains then mostly has it there. */
  readonly unsaidIntermittent: number;
  /** The fault is always there. */
  readonly alwaysThere: { readonly intermittent: number; readonly steady: number };
  /** Share of complaints about a function alone that have no electrical cause. */
  readonly notElectrical: number;
  /** Probability of a fault that is not among the candidates. */
  readonly somethingElse: number;
}

/**
 * The starting weights. No count of harness faults by place was found for trucks or off-highway machines, so these are judgement: contacts and
 * crimps before wires, what moves or gets wet before what lies still, a control unit last.
 *
 * Source: common practice, no source. That poor connections lead is an expert statement of US Army manuals (TM 9-6115-729-24) without a
 * figure.
 */
export const PRIORS: PriorTable = {
  origin: "common practice, no source",
  items: {
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
    supply: 1.5,
    plug: 0.25,
    "cavity-pair": 0.05,
  },
  modes: {
    "sealed-contact": { open: 0.4, "high-resistance": 0.35, intermittent: 0.25 },
    "unsealed-contact": { open: 0.35, "high-resistance": 0.4, intermittent: 0.25 },
    ring: { open: 0.2, "high-resistance": 0.6, intermittent: 0.2 },
    "splice-end": { open: 0.35, "high-resistance": 0.4, intermittent: 0.25 },
    wire: { open: 0.35, "short-to-ground": 0.27, "short-to-supply": 0.03, "high-resistance": 0.1, intermittent: 0.25 },
    "moving-part": { "stuck-open": 0.45, "stuck-closed": 0.2, "high-resistance": 0.2, open: 0.15 },
    actuator: { open: 0.55, bridge: 0.25, "high-resistance": 0.2 },
    sensor: { open: 0.3, bridge: 0.15, drift: 0.55 },
    resistor: { open: 0.5, bridge: 0.2, drift: 0.3 },
    "module-part": { dead: 0.7, "always-on": 0.3 },
    fuse: { blown: 1 },
    supply: { drift: 1 },
    plug: { unplugged: 1 },
    "cavity-pair": { bridge: 0.8, "cross-wired": 0.2 },
  },
  hazards: { flexing: 3, chafe: 2, hot: 2, wet: 2, corrosive: 2, rotating: 1.5, crush: 1.5, oil: 1.2, step: 1.2 },
  recentWork: 4,
  recentWorkMistake: 20,
  named: 4,
  highCurrent: 2,
  wetComplaint: 3,
  comesAndGoes: { intermittent: 6, steady: 0.3 },
  unsaidIntermittent: 0.3,
  alwaysThere: { intermittent: 0.1, steady: 1 },
  notElectrical: 0.04,
  somethingElse: 0.02,
};

/** Name of the group of "no electrical fault": the wiring is sound, and what fails fails for another reason. */
export const NO_ELECTRICAL_FAULT = "no electrical fault";

/** An item that may fail, before its modes of failure are listed. */
interface FaultableItem {
  readonly item: Item;
  readonly sort: ItemSort;
  readonly name: string;
  readonly repair: string;
  readonly places: CandidatePlaces;
  /** Factors that hold for every mode of failure, its own weight aside. */
  readonly factors: readonly WeightFactor[];
  /** How many metres, for a wire. */
  readonly amount?: number;
}

/** Words of each sort of item. */
const SORT_WORDS: Readonly<Record<ItemSort, string>> = {
  "sealed-contact": "sealed contact",
  "unsealed-contact": "unsealed contact",
  ring: "ring terminal",
  "splice-end": "crimp of a splice",
  wire: "wire",
  "moving-part": "switch or relay contact",
  actuator: "actuator",
  sensor: "sensor",
  resistor: "resistor",
  "module-part": "control unit",
  fuse: "fuse",
  supply: "battery",
  plug: "connector",
  "cavity-pair": "pair of cavities",
};

/** Words of each mode of failure. */
const MODE_WORDS: Readonly<Record<FaultMode, string>> = {
  open: "open",
  "high-resistance": "high resistance",
  "short-to-ground": "short to ground",
  "short-to-supply": "short to supply",
  bridge: "shorted",
  blown: "blown",
  "stuck-open": "does not close",
  "stuck-closed": "does not open",
  dead: "no output",
  "always-on": "always on",
  drift: "wrong value",
  unplugged: "disconnected",
  "cross-wired": "cross-wired",
  intermittent: "intermittent",
};

/**
 * Lists the modes of failure of an item as candidates, each with its fraction of the weight of the item.
 *
 * @param ways What is put into the solver for each mode, at each severity; modes without a fraction in the table are left out.
 */
export function makeCandidates(
  priors: PriorTable,
  faultable: FaultableItem,
  ways: Readonly<Partial<Record<FaultMode, readonly (readonly Fault[])[]>>>,
): readonly Candidate[] {
  const { item, sort, name, repair, places, factors, amount = 1 } = faultable;
  const own = { factor: priors.items[sort] * amount, why: SORT_WORDS[sort] };
  return (Object.keys(MODE_WORDS) as FaultMode[]).flatMap((mode) => {
    const share = priors.modes[sort][mode];
    const levels = ways[mode];
    if (share === undefined || levels === undefined || levels.length === 0) return [];
    const id = `${mode} ${item.id}`;
    const label = `${name}: ${MODE_WORDS[mode]}`;
    const shared = [
      own,
      { factor: share, why: `${MODE_WORDS[mode]}, fraction of the faults of a ${SORT_WORDS[sort]}` },
      ...factors,
    ];
    return [{ id, mode, item, label, repair, levels, factors: shared, places }];
  });
}

/** One candidate at one severity, or two candidates together: what a belief is held about. */
export interface Hypothesis {
  readonly candidates: readonly Candidate[];
  /** Position of the severity in the candidate. */
  readonly level: number;
  /** Faults for the solver. */
  readonly faults: readonly Fault[];
  /** Intermittent: as a rule the machine reads as without a fault. */
  readonly isIntermittent: boolean;
  readonly weight: number;
  /** Repair group, counted from 0; the same for all that one repair removes. */
  readonly group: number;
}

/** Hypotheses with the names of their repair groups. "Something else" is not among them; it is kept beside. */
export interface HypothesisList {
  readonly hypotheses: readonly Hypothesis[];
  readonly groups: readonly string[];
}

/** Turns candidates into hypotheses, one a severity, those of a repair group next to each other. */
export function listHypotheses(candidates: readonly Candidate[]): HypothesisList {
  const byRepair = new Map<string, Candidate[]>();
  for (const candidate of candidates) {
    addTo(byRepair, candidate.repair, candidate);
  }
  const groups = [...byRepair.keys()];
  const hypotheses = [...byRepair.values()].flatMap((list, group) =>
    list.flatMap((candidate) =>
      candidate.levels.map((faults, level): Hypothesis => ({
        candidates: [candidate],
        level,
        faults,
        isIntermittent: candidate.mode === "intermittent",
        weight: candidateWeight(candidate) / candidate.levels.length,
        group,
      })),
    ),
  );
  return { hypotheses, groups };
}

/** Where a wire runs: its connectors, segments and zones. */
export function wirePlaces(harness: Harness, edge: number, priors: PriorTable): CandidatePlaces {
  const item = harness.edges[edge];
  if (item?.kind !== "wire") return { connectors: [], segments: [], zones: [] };
  const segments = item.wire.route ?? [];
  const zones = segments.flatMap((id) => harness.segments.get(id)?.zone ?? []);
  const ends = [harness.index.from[edge] ?? -1, harness.index.to[edge] ?? -1].map((end) => harness.nodes[end]);
  const connectors = ends.flatMap((node) => (node?.kind === "contact" ? [node.connector.id] : []));
  const perSegment = segments.map((id) => segmentWeight(harness, priors, id));
  const total = perSegment.reduce((sum, weight) => sum + weight, 0);
  return {
    connectors,
    segments,
    segmentShares: perSegment.map((weight) => weight / total),
    zones: [...new Set(zones)],
  };
}

/** What moves, rubs or gets wet fails more often for its length. */
function segmentWeight(harness: Harness, priors: PriorTable, id: string): number {
  const { lengthMm = 500, hazards = [] } = harness.segments.get(id) ?? {};
  return Math.max(lengthMm, 1) * (worstHazard(priors, hazards)?.factor ?? 1);
}

/** The hazard with the largest factor above 1. One that only some states have is a danger to people, not to the harness. */
function worstHazard(priors: PriorTable, hazards: readonly Hazard[]): WeightFactor | undefined {
  let worst: WeightFactor | undefined;
  for (const { kind, states, text } of hazards) {
    const factor = states === undefined ? (priors.hazards[kind] ?? 1) : 1;
    if (factor > (worst?.factor ?? 1)) worst = { factor, why: text };
  }
  return worst;
}

/**
 * Factors for the hazards at the location of an item: those of its segments and, where it lies in none, those of its zones. Of several
 * hazards only the largest factor counts, because they do not add up to a certainty.
 */
export function hazardFactors(harness: Harness, priors: PriorTable, places: CandidatePlaces): readonly WeightFactor[] {
  const inSegments = places.segments.flatMap((id) => harness.segments.get(id)?.hazards ?? []);
  const inZones = harness.document.zones
    .filter((zone) => places.zones.includes(zone.id))
    .flatMap(({ hazards = [] }) => hazards);
  const worst = worstHazard(priors, inSegments.length > 0 || places.segments.length > 0 ? inSegments : inZones);
  return worst ? [worst] : [];
}
