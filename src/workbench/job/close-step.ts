import { ok } from "../../base/index.ts";
import { noteEvent } from "../../diagnosis/index.ts";
import { stepTaken, type JobStep } from "./job-step.ts";
import { jobStage } from "./job-stage.ts";
import { proofFacts } from "./proof-facts.ts";
import { refuse } from "./refuse.ts";
import { closedRefusal } from "./take-given.ts";

/** How a job is closed. */
export interface CloseRequest {
  readonly outcome: "mended" | "not-found" | "passed-on";
  /** What was not checked, in words. */
  readonly notChecked?: string;
}

/** Most characters of what was not checked, and room for the proofs that are added to it. */
const MOST = 1000;

/** Closes a job. Proofs that were not done, or failed, are written down with it. */
export function closeStep({ outcome, notChecked }: CloseRequest): JobStep {
  return (job, stamp) => {
    const { state } = job;
    if (jobStage(state) === "closed") return closedRefusal();
    if (outcome === "mended" && state.facts.repairs.length === 0) {
      return refuse(
        "out-of-turn",
        'No repair is written down, so the job is not mended: write it down with "ohmward job repair".',
      );
    }
    if ((notChecked?.length ?? 0) > MOST) {
      const problem = {
        at: "--not-checked",
        message: `The text is longer than ${MOST} characters.`,
        hint: "Say it shorter.",
      };
      return refuse("wrong-input", "The job was not closed.", [problem]);
    }
    const missing =
      outcome === "mended" ? proofFacts(state).filter(({ result }) => result?.verdict !== "as-expected") : [];
    const unproven = missing.map(({ text, result }) => (result ? `${text} (${result.text})` : text));
    const words = [notChecked ?? "", ...unproven.map((text) => `Not proven: ${text}`)].filter((each) => each !== "");
    const rest = words.length === 0 ? {} : { notChecked: words.join(" ").slice(0, 2000) };
    const closed = noteEvent(state, { kind: "closed", outcome, ...rest }, stamp);
    return ok(stepTaken(job, closed, { text: `Closed: ${outcome.replaceAll("-", " ")}.` }));
  };
}
