import { err, ok, type Result } from "../../base/index.ts";
import { noteEvent, takeReading, type JobState } from "../../diagnosis/index.ts";
import { describeGiven, type GivenReading, type JobEvent } from "../../records/index.ts";
import type { JobRefusal } from "./job-answers.ts";
import { stepTaken, type JobStep } from "./job-step.ts";
import { jobStage } from "./job-stage.ts";
import { refusalOf } from "./open-job.ts";
import { numberedProofs, type NumberedProof } from "./proof-facts.ts";
import { readValue, type ValueRequest } from "./read-value.ts";
import { refuse } from "./refuse.ts";

type Stamp = Parameters<JobStep>[1];
type ProofEvent = Extract<JobEvent, { kind: "proof" }>;
/** A proof as it is written down, without its id and moment. */
type NewProof = Pick<ProofEvent, "check" | "given" | "verdict">;

/** Writes down what a proof of the repair gave: a reading taken again, or a trial of the function. */
export function proofStep(number: number, request: ValueRequest): JobStep {
  return (job, stamp) => {
    const { state } = job;
    if (jobStage(state) !== "proving") {
      return refuse("out-of-turn", 'Proofs come after a repair: write it down first with "ohmward job repair".');
    }
    const proofs = numberedProofs(state);
    const wanted = proofs.find((each) => each.number === number);
    if (!wanted) {
      const message = `There is no proof ${number}; there are ${proofs.length}.`;
      const hint = 'They are listed by "ohmward job next".';
      return refuse("wrong-input", "The proof was not written down.", [{ at: "proof", message, hint }]);
    }
    const made = makeProof(state, wanted, { request, stamp });
    if (!made.ok) return made;
    const { check, given, verdict } = made.value;
    const text = `Written down: proof ${number}, ${check.point}: ${describeGiven(given)}; ${verdict.replaceAll("-", " ")}.`;
    return ok(stepTaken(job, noteEvent(state, { kind: "proof", ...made.value }, stamp), { text, verdict }));
  };
}

interface Typed {
  readonly request: ValueRequest;
  readonly stamp: Stamp;
}

function makeProof(state: JobState, wanted: NumberedProof, typed: Typed): Result<NewProof, JobRefusal> {
  const check = state.workup.checks.get(wanted.key);
  if (!check) return trial(state, wanted, typed.request);
  const given = readValue(state, check, typed.request);
  if (!given.ok) return refuse("wrong-input", "The proof was not written down.", [given.error]);
  // Read as if it were one more reading, to be judged alike; it is kept as a proof, since the machine is another one now.
  const taken = takeReading(state, { key: check.key, given: given.value, stamp: typed.stamp });
  if (!taken.ok) return err(refusalOf(taken.error));
  const event = taken.value.record.events.at(-1);
  if (event?.kind !== "reading") throw new RangeError("Cannot judge the proof: the last event is no reading");
  return ok({ check: event.check, given: event.given, verdict: event.verdict });
}

const WORKS = /^(?:works|good|ok|as[ -]expected|stays away)$/iu;
const FAILS = /^(?:fails|bad|not as[ -]expected|comes back|is back)$/iu;

/** A trial of the function: it works, it fails, or nobody is sure. */
function trial(state: JobState, { key, proof }: NumberedProof, { value }: ValueRequest): Result<NewProof, JobRefusal> {
  const typed = value.trim();
  const given = trialReading(typed);
  if (!given) {
    const message = `"${typed}" is no result of a trial.`;
    return refuse("wrong-input", "The proof was not written down.", [
      { at: "proof", message, hint: 'Write "works", "fails" or "not sure".' },
    ]);
  }
  const { temperature, wetness, load } = state.facts.complaint.conditions;
  const condition = [temperature, wetness, load].filter((each) => each !== undefined).join(", ");
  const check = {
    ...{ key, kind: "look" as const, point: proof.text.slice(0, 600), setup: [], meter: "no meter", minutes: 0 },
    condition: condition === "" ? "as in the complaint" : condition,
    expected: "works as it should",
  };
  const verdict =
    given.kind !== "outcome" ? "no-verdict" : given.outcome === "works" ? "as-expected" : "not-as-expected";
  return ok({ check, given, verdict });
}

function trialReading(typed: string): GivenReading | undefined {
  if (WORKS.test(typed)) return { kind: "outcome", outcome: "works" };
  if (FAILS.test(typed)) return { kind: "outcome", outcome: "fails" };
  return /^(?:not[ -]sure|unsure|\?)$/iu.test(typed) ? { kind: "not-sure" } : undefined;
}
