import { ok } from "../../base/index.ts";
import { noteEvent, suspects } from "../../diagnosis/index.ts";
import type { JobProblem } from "./job-answers.ts";
import { stepTaken, type JobStep } from "./job-step.ts";
import { jobStage } from "./job-stage.ts";
import { MOST_TEXT } from "./read-facts.ts";
import { refuse } from "./refuse.ts";
import { closedRefusal } from "./take-given.ts";

/** A repair as it is told. */
export interface RepairRequest {
  /** What was done. */
  readonly text: string;
  /** The true cause, the layer below what failed. */
  readonly cause?: string;
  /** Name of the suspect that it was; the most likely one where absent. */
  readonly suspect?: string;
  readonly parts?: readonly string[];
  readonly minutes?: number;
}

/** Writes down a repair and its cause. */
export function repairStep(request: RepairRequest): JobStep {
  return (job, stamp) => {
    const { state } = job;
    if (jobStage(state) === "closed") return closedRefusal();
    const { text, cause, parts = [], minutes } = request;
    const list = suspects(state);
    const names = list.map(({ label }) => label);
    const suspect = request.suspect ?? names[0] ?? "something else";
    const problems = problemsOf(request, names);
    if (problems.length > 0) return refuse("wrong-input", "The repair was not written down.", problems);
    const named = names.find((each) => each.toLowerCase() === suspect.trim().toLowerCase()) ?? suspect;
    const known = cause === undefined ? state : noteEvent(state, { kind: "cause", suspect: named, text: cause }, stamp);
    const repair = { kind: "repair" as const, text, parts: [...parts], ...(minutes === undefined ? {} : { minutes }) };
    return ok(stepTaken(job, noteEvent(known, repair, stamp), { text: `Written down: repair of ${named}: ${text}` }));
  };
}

function problemsOf(
  { text, cause, parts = [], minutes, suspect }: RepairRequest,
  names: readonly string[],
): readonly JobProblem[] {
  const problems: JobProblem[] = [];
  const hint = "Say it shorter.";
  if (text.trim() === "")
    problems.push({ at: "repair", message: "What was done is not said.", hint: "Write it in a sentence." });
  if (text.length > MOST_TEXT)
    problems.push({ at: "repair", message: `The text is longer than ${MOST_TEXT} characters.`, hint });
  if ((cause?.length ?? 0) > MOST_TEXT)
    problems.push({ at: "--cause", message: `The text is longer than ${MOST_TEXT} characters.`, hint });
  if (parts.length > 50 || parts.some((part) => part.length > 600)) {
    problems.push({ at: "--part", message: "More than 50 parts, or a part with more than 600 characters.", hint });
  }
  if (minutes !== undefined && (!Number.isFinite(minutes) || minutes < 0 || minutes > 100_000)) {
    problems.push({
      at: "--minutes",
      message: "The time is no number of minutes from 0 to 100 000.",
      hint: "Write it as 25.",
    });
  }
  if (suspect !== undefined && !names.some((each) => each.toLowerCase() === suspect.trim().toLowerCase())) {
    problems.push({
      at: "--suspect",
      message: `No suspect is called "${suspect}".`,
      hint: `The suspects are ${names
        .slice(0, 5)
        .map((each) => `"${each}"`)
        .join(", ")} and others, or "something else".`,
    });
  }
  return problems;
}
