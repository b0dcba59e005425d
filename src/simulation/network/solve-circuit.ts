import { keptFor, keptIn } from "../../base/index.ts";
import type { Harness } from "../../harness-model/index.ts";
import { applyFaults } from "../faults/apply-faults.ts";
import { buildParts } from "./build-parts.ts";
import type { QuestionProblem, OperatingConditions } from "./part.ts";
import { settle, type OperatingPoint, type NoOperatingPoint } from "./settle.ts";

/** A question about something the machine does not have. */
interface WrongQuestion {
  readonly kind: "wrong-question";
  readonly problems: readonly QuestionProblem[];
}

/** The machine in a situation: settled, or why there is no answer. Never a made-up number. */
export type SolvedCircuit = OperatingPoint | NoOperatingPoint | WrongQuestion;

// A harness and a situation never change, so the answer to the two cannot either.
const answers = keptFor((_: Harness) => new WeakMap<OperatingConditions, SolvedCircuit>());

/**
 * Works out every voltage of the machine in a situation.
 *
 * @param operatingConditions State, settings, faults, unplugged connectors. Asking again with the same object costs nothing.
 * @returns `operatingPoint` with everything to read from; `contradictory` with the sources that cannot all be true; `no-steady-state` with what
 *   keeps changing; `wrong-question` with what the machine does not have.
 */
export function solveCircuit(harness: Harness, operatingConditions: OperatingConditions): SolvedCircuit {
  return keptIn(answers(harness), operatingConditions, () => solveFresh(harness, operatingConditions));
}

function solveFresh(harness: Harness, operatingConditions: OperatingConditions): SolvedCircuit {
  const built = buildParts(harness, operatingConditions);
  if (!built.ok) return { kind: "wrong-question", problems: built.error };
  const faulty = applyFaults(harness, built.value, operatingConditions.faults ?? []);
  if (!faulty.ok) return { kind: "wrong-question", problems: faulty.error };
  return settle(faulty.value);
}
