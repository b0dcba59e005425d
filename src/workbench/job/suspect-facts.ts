import { candidateWeight, suspects, type JobState, type SuspectShare } from "../../diagnosis/index.ts";
import { describeItem } from "../../trace/index.ts";
import type { SuspectFacts } from "./job-answers.ts";

const MOST = 12;
const MOST_FAULTS = 4;

/**
 * The suspects as a list, most likely first, with what the thing is and how it may have failed.
 *
 * @param state The job.
 * @param most At most so many.
 */
export function suspectList(state: JobState, most = MOST): readonly SuspectFacts[] {
  return suspectFacts(state, suspects(state).slice(0, most));
}

/** Suspects of the planner with what the thing is and how it may have failed. */
export function suspectFacts(
  { harness, workup, belief }: JobState,
  list: readonly SuspectShare[],
): readonly SuspectFacts[] {
  return list.map(({ group, label, share }) => {
    const own = [...workup.hypotheses.entries()].filter(([, hypothesis]) => hypothesis.group === group);
    const likely = own.sort(([a], [b]) => (belief[b] ?? 0) - (belief[a] ?? 0));
    const faults = likely.map(([, { candidates }]) => candidates.map((each) => each.label).join(" and "));
    const [first] = likely.flatMap(([, { candidates }]) => candidates.toSorted(byWeight));
    const what = first && candidateName(label, describeItem(harness, first.item).label);
    return {
      label,
      share,
      ...(what === undefined ? {} : { what }),
      faults: [...new Set(faults)].slice(0, MOST_FAULTS),
    };
  });
}

function byWeight(a: Parameters<typeof candidateWeight>[0], b: Parameters<typeof candidateWeight>[0]): number {
  return candidateWeight(b) - candidateWeight(a);
}

/** A name that says no more than the label, or only a part of two things, is left out. */
function candidateName(label: string, name: string): string | undefined {
  return label.includes(" and ") || label.endsWith(name) ? undefined : name;
}
