import { updateBelief } from "../belief/evidence.ts";
import { isMeterCheck } from "../checks/check.ts";
import { repairMinutes } from "../checks/cost-table.ts";
import { repairOrder } from "../plan/repair-order.ts";
import { describeCheck, type DescribedCheck } from "./describe-check.ts";
import type { CandidateProbability } from "./explain-outcomes.ts";
import type { JobState } from "./job-state.ts";

/** Possible causes by repair group, most probable first; "something else" under group -1. */
export function suspects({ model, belief }: JobState): readonly CandidateProbability[] {
  const groups = [...model.hypotheses.map(({ group }) => group), -1];
  return topAmbiguityGroups(belief, groups).map(({ group, share }: GroupProbability) => ({
    group,
    label: group < 0 ? "something else" : (model.groups[group] ?? ""),
    share,
  }));
}

/** With any one reading taken away the cause must still be more probable than all others together. */
const STILL_FIRST = 0.5;

/**
 * Whether a cause is confirmed: no single reading carries the verdict, so one wrong reading cannot have made it.
 *
 * @param group Repair group of the cause.
 */
export function isConfirmed({ model, readingEvidence }: JobState, group: number): boolean {
  const readings = [...new Map(readingEvidence.map((each) => [each.key, each])).values()];
  return readings.every((left) => {
    const belief = updateBelief(model.priors, [...model.evidence, ...readings.filter((each) => each !== left)]);
    const own = model.hypotheses.reduce((sum, each, at) => sum + (each.group === group ? (belief[at] ?? 0) : 0), 0);
    return own > STILL_FIRST;
  });
}

/** Possible causes in the order in which to repair them, with the expected minutes: by probability over minutes. */
export function orderOfRepairs(list: readonly CandidateProbability[]): {
  readonly order: readonly CandidateProbability[];
  readonly minutes: number;
} {
  const named = list.filter(({ group }) => group >= 0);
  const { order, minutes } = repairOrder(
    named.map(({ label, share }) => ({ weight: share, minutes: repairMinutes(label) })),
  );
  return { order: order.flatMap((position) => named[position] ?? []), minutes };
}

/** One verification of the repair. */
export interface Verification {
  /** Names it in the record: that of its check, or of what is tried. */
  readonly key: string;
  readonly text: string;
  /** The check to repeat; absent for a trial of the function. */
  readonly check?: DescribedCheck;
}

/**
 * What verifies the repair: the readings that failed, taken again under the same conditions, the function under the conditions of the
 * complaint, and trouble codes that do not come back.
 */
export function verificationsOf({ harness, model, facts }: JobState): readonly Verification[] {
  const off = facts.readings.filter(({ verdict }) => verdict === "fail");
  // A test that was read twice is verified once.
  const wrong = [...new Map(off.map((reading) => [reading.check.key, reading])).values()];
  const again = wrong.slice(-3).flatMap(({ check }): Verification[] => {
    const known = model.checks.get(check.key);
    if (!known || !isMeterCheck(known)) return [];
    const described = describeCheck(harness, known);
    const text = `Repeat the test in the same state: ${described.title}; ${described.condition}. It must show: ${described.expected}.`;
    return [{ key: check.key, text, check: described }];
  });
  const present = [...facts.codes].filter(([, status]) => status !== "not-present").map(([code]) => code);
  const bad = [...facts.symptoms].filter(([, is]) => is === "bad").map(([item]) => item);
  const { temperature, wetness, load } = facts.complaint.conditions;
  const conditions = [temperature, wetness, load].filter((each) => each !== undefined && each !== "");
  const under = conditions.length > 0 ? ` (${conditions.join(", ")})` : "";
  const codes = present.join(", ");
  const items = bad.join(", ");
  const complaint = `under the conditions of the complaint${under}`;
  return [
    ...again,
    ...(present.length > 0
      ? [
          {
            key: `trial codes ${codes}${under}`,
            text: `Clear ${codes}. Run the machine ${complaint}. The DTCs must not come back.`,
          },
        ]
      : []),
    ...(bad.length > 0
      ? [{ key: `trial functions ${items}${under}`, text: `Try ${items} ${complaint}. It must work.` }]
      : []),
    {
      key: "trial movement",
      text: "Wiggle test at the repair: move the harness and watch the function. Nothing must change.",
    },
  ];
}

/** A repair group with the probability that its repair removes the fault. */
export interface GroupProbability {
  readonly group: number;
  readonly share: number;
}

/**
 * Adds up probabilities by repair group.
 *
 * @param belief Probability of each hypothesis.
 * @returns Groups with a probability above 0, the largest first.
 */
export function topAmbiguityGroups(belief: ArrayLike<number>, groups: ArrayLike<number>): readonly GroupProbability[] {
  const shares = new Map<number, number>();
  for (let index = 0; index < belief.length; index++) {
    const group = groups[index] ?? -1;
    shares.set(group, (shares.get(group) ?? 0) + (belief[index] ?? 0));
  }
  return [...shares]
    .map(([group, share]) => ({ group, share }))
    .filter(({ share }) => share > 0)
    .sort((a, b) => b.share - a.share || a.group - b.group);
}
