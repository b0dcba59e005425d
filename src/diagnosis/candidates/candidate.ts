import type { Fault } from "../../electrics/index.ts";
import type { Item } from "../../trace/index.ts";

/** How a thing fails. `intermittent` behaves at rest and fails when it is moved, heated or wetted. */
export type FaultMode =
  | "open"
  | "resistance"
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
  | "swapped"
  | "intermittent";

/** One factor of a weight, with the reason that is shown for it. */
export interface WeightFactor {
  readonly factor: number;
  readonly why: string;
}

/** Something that may be the fault: one thing failing in one way, at one or more severities. */
export interface Candidate {
  /** Stable name, such as `open W78` or `bridge XC1:4 XC1:5`. */
  readonly id: string;
  readonly mode: FaultMode;
  /** The thing that fails. */
  readonly item: Item;
  /** What a person calls the fault. */
  readonly label: string;
  /** Name of the repair that mends it; candidates with one name need no telling apart. */
  readonly repair: string;
  /** What is put into the solver at each severity; one list of faults a severity. */
  readonly levels: readonly (readonly Fault[])[];
  readonly factors: readonly WeightFactor[];
  /** Connectors, segments and zones where it can be seen, felt or made to show. */
  readonly places: CandidatePlaces;
}

/** Where a candidate is to be found. */
export interface CandidatePlaces {
  readonly connectors: readonly string[];
  readonly segments: readonly string[];
  readonly zones: readonly string[];
}

/** The weight of a candidate: the product of its factors. */
export function candidateWeight({ factors }: Pick<Candidate, "factors">): number {
  return factors.reduce((product, { factor }) => product * factor, 1);
}
