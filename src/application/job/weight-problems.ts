import type { JobState } from "../../diagnosis/index.ts";
import type { JobProblem } from "./job-answers.ts";
import type { ReadWeight } from "./read-facts.ts";

/**
 * The names under which the starting probability of possible faults can be changed: the fault itself, the item, the repair, the mode of failure.
 *
 * @param state The job.
 * @returns Ids of the faults that each name stands for.
 */
export function weightNames({ model }: JobState): ReadonlyMap<string, ReadonlySet<string>> {
  const names = new Map<string, Set<string>>();
  for (const { candidates } of model.hypotheses) {
    for (const { id, item, repair, mode } of candidates) {
      for (const name of [id, item.id, repair, mode]) {
        const known = names.get(name) ?? new Set();
        names.set(name, known.add(id));
      }
    }
  }
  return names;
}

/** What is wrong with changes to starting probabilities: names that stand for no fault of the job. */
export function weightProblems(state: JobState, weights: readonly ReadWeight[]): readonly JobProblem[] {
  const names = weightNames(state);
  const before = new Set(state.facts.priors.map(({ of }) => of));
  return weights
    .filter(({ of }) => !names.has(of) && !before.has(of))
    .map(({ of }) => ({
      at: "--probability-factor",
      message: `There is no possible fault "${of}" in this job.`,
      hint: `Give a fault, item or repair of these circuits, such as ${someOf(names)}, or a mode of failure, such as open or intermittent.`,
    }));
}

function someOf(names: ReadonlyMap<string, unknown>): string {
  return [...names.keys()]
    .slice(0, 4)
    .map((name) => `"${name}"`)
    .join(", ");
}
