import { unreachable } from "../../base/index.ts";
import type { GivenReading } from "../../records/index.ts";
import type { Evidence } from "../belief/evidence.ts";
import { readingLikelihoods, type ReadValue, type ScaleModel } from "../belief/reading-likelihood.ts";
import { isMeterCheck, type Check, type HandCheck, type MeterCheck } from "../checks/check.ts";
import { faultyShare, outcomesOf } from "../checks/hand-outcomes.ts";
import { makeScaleModel } from "../predict/scale-model.ts";
import { differenceEvidence, familyOf, type ReadVolts } from "./difference-evidence.ts";
import type { Workup } from "./workup.ts";

/** Volts below which a reading is a zero that a bad contact of the tip would show too. */
const ZERO_VOLT = 0.05;

/**
 * What a reading says about every hypothesis.
 *
 * @param workup The workup.
 * @param check The check.
 * @param given The reading.
 * @param earlier Voltages that were read before it.
 * @returns The evidence, "something else" last; undefined if the reading says nothing: not sure, cannot be done.
 */
export function evidenceOf(
  workup: Workup,
  check: Check,
  given: GivenReading,
  earlier: readonly ReadVolts[] = [],
): Evidence | undefined {
  switch (given.kind) {
    case "not-sure":
    case "cannot-be-done":
      return undefined;
    case "outcome":
      return isMeterCheck(check) ? undefined : outcomeEvidence(workup, check, given.outcome);
    case "value": {
      const family = isMeterCheck(check) ? relatedTo(workup, check, earlier) : undefined;
      if (family && isMeterCheck(check)) {
        return { ...differenceEvidence(workup, family, { check, volt: given.value }), isDoubtful: isDoubtful(given) };
      }
      return meterEvidence(workup, check, { kind: "value", value: given.value }, isDoubtful(given));
    }
    case "over-range":
      return meterEvidence(workup, check, { kind: "over-range" }, isDoubtful(given));
    case "unsteady":
      return meterEvidence(workup, check, { kind: "unsteady" }, false);
    default:
      return unreachable(given);
  }
}

/** The first earlier voltage of the same lines in the same situation, another check than this one. */
function relatedTo(workup: Workup, check: MeterCheck, earlier: readonly ReadVolts[]): ReadVolts | undefined {
  if (check.kind !== "volts") return undefined;
  const family = familyOf(workup, check);
  return earlier.find((each) => each.check.key !== check.key && familyOf(workup, each.check) === family);
}

/** Whether a reading is one that a bad tip, a wrong range or an open lead shows as well, and the meter was not proven. */
export function needsProof(given: GivenReading): boolean {
  if (given.kind === "over-range") return given.isMeterProven !== true;
  return (
    given.kind === "value" && given.unit === "V" && Math.abs(given.value) < ZERO_VOLT && given.isMeterProven !== true
  );
}

function isDoubtful(given: GivenReading): boolean {
  return (given.kind === "value" && given.isDoubtful === true) || needsProof(given);
}

function meterEvidence(workup: Workup, check: Check, read: ReadValue, isDoubtful: boolean): Evidence | undefined {
  if (!isMeterCheck(check)) return undefined;
  const { likelihoods, even } = readingLikelihoods(scaleModelOf(workup, check), read);
  return { key: check.key, likelihoods: Float64Array.of(...likelihoods, even), even, isDoubtful };
}

/** What a meter check is expected to show under some hypotheses, or all of them where none are named. */
export function scaleModelOf(
  { hypotheses, readings }: Workup,
  check: MeterCheck,
  positions: readonly number[] = [...hypotheses.keys()],
): ScaleModel {
  const of = positions.flatMap((index) => hypotheses[index] ?? []);
  return makeScaleModel(of, { unit: check.kind === "volts" ? "V" : "Ω", ...readings(check, positions) });
}

/**
 * What looking, moving, pulling or exchanging says about every hypothesis.
 *
 * @param workup The workup.
 * @param check The check; it need not be one of the workup.
 * @param outcome Id of what was seen.
 * @returns The evidence, "something else" last; undefined if the check has no such outcome.
 */
export function outcomeEvidence(workup: Workup, check: HandCheck, outcome: string): Evidence | undefined {
  const found = outcomesOf(check).find(({ id }) => id === outcome);
  if (!found) return undefined;
  const likelihoods = workup.hypotheses.map((hypothesis) => {
    const share = faultyShare(check, hypothesis);
    return found.isHealthy ? 1 - share : share;
  });
  // Looking at the wrong place hardly ever shows something: "something else" makes sound outcomes likely too.
  const even = found.isHealthy ? 0.7 : 0.3;
  return { key: check.key, likelihoods: Float64Array.of(...likelihoods, even), even };
}
