import type { JobState } from "../../diagnosis/index.ts";
import type { JobProblem } from "./job-answers.ts";
import type { ReadWeight } from "./read-facts.ts";

/**
 * The names under which the faults looked for can be given another weight: the fault itself, the thing, the repair, the way it fails.
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

/** What is wrong with changed weights: names that stand for no fault of the job. */
export function weightProblems(state: JobState, weights: readonly ReadWeight[]): readonly JobProblem[] {
  const names = weightNames(state);
  const before = new Set(state.facts.priors.map(({ of }) => of));
  return weights
    .filter(({ of }) => !names.has(of) && !before.has(of))
    .map(({ of }) => ({
      at: "--probability-factor",
      message: `No fault that is looked for is called "${of}".`,
      hint: `Name a fault, thing or repair of these circuits, such as ${someOf(names)}, or a way to fail, such as open or intermittent.`,
    }));
}

function someOf(names: ReadonlyMap<string, unknown>): string {
  return [...names.keys()]
    .slice(0, 4)
    .map((name) => `"${name}"`)
    .join(", ");
}
