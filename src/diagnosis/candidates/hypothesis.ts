import type { Fault } from "../../electrics/index.ts";
import { candidateWeight, type Candidate } from "./candidate.ts";

/** One candidate at one severity, or two candidates together: what a belief is held about. */
export interface Hypothesis {
  readonly candidates: readonly Candidate[];
  /** Position of the severity in the candidate. */
  readonly level: number;
  /** Faults for the solver. */
  readonly faults: readonly Fault[];
  /** Comes and goes: as a rule the machine reads as healthy. */
  readonly isIntermittent: boolean;
  readonly weight: number;
  /** Repair group, counted from 0; the same for all that one repair mends. */
  readonly group: number;
}

/** Hypotheses with the names of their repair groups. "Something else" is not among them; it is kept beside. */
export interface HypothesisList {
  readonly hypotheses: readonly Hypothesis[];
  readonly groups: readonly string[];
}

/**
 * Turns candidates into hypotheses, one a severity, those of a repair group next to each other.
 *
 * @param candidates The candidates.
 */
export function listHypotheses(candidates: readonly Candidate[]): HypothesisList {
  const byRepair = new Map<string, Candidate[]>();
  for (const candidate of candidates) {
    const known = byRepair.get(candidate.repair);
    if (known) known.push(candidate);
    else byRepair.set(candidate.repair, [candidate]);
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
