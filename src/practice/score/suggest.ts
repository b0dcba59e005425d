import { nextCheck, type Suggestion, type WorkSetup } from "../../diagnosis/index.ts";
import type { JobFacts } from "../../records/index.ts";
import type { Belief } from "./hunt-belief.ts";

/**
 * What the planner would do next with a belief, wherever the work stands. Readings are taken as they are: no check is asked for twice, and
 * no meter to be proven.
 *
 * @param belief What is believed, with what it rests on.
 * @param setup Where the work stands.
 */
export function suggestNext({ job, shares, evidence }: Belief, setup: WorkSetup): Suggestion {
  const readings = evidence.map(({ key }) => readingOf(key));
  return nextCheck({ ...job, belief: shares, setup, surprises: [], facts: { ...job.facts, readings } });
}

/** A reading that says no more than that its check was done: what it showed is in the belief already. */
function readingOf(key: string): JobFacts["readings"][number] {
  return {
    kind: "reading",
    id: key,
    at: "",
    check: { key, kind: "look", point: "", condition: "", setup: [], meter: "", expected: "", minutes: 0 },
    given: { kind: "not-sure" },
    verdict: "no-verdict",
    suspects: [],
    isAmended: false,
  };
}
