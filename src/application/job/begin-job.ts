import { err, ok, type Result } from "../../base/index.ts";
import { noteEvent, startJob, type JobState } from "../../diagnosis/index.ts";
import type { Stamp } from "../../job-records/index.ts";
import type { ChooseAnswer } from "../answer.ts";
import { chooseBuild } from "../choose-build.ts";
import type { Machine } from "../open-machine.ts";
import type { JobProblem, JobRefusal } from "./job-answers.ts";
import { refusalOf, type OpenJob } from "./open-job.ts";
import { readFacts, type FactsRequest, type ReadFacts } from "./read-facts.ts";
import { refuse } from "./refuse.ts";
import { weigh } from "./take-step.ts";
import { weightProblems } from "./weight-problems.ts";

/** What a new job is made of. */
export interface JobRequest extends FactsRequest {
  /** Id of the job, unique where it will be stored. */
  readonly id: string;
  readonly build?: string;
}

/**
 * Starts a job.
 *
 * @param machine The machine.
 * @param request What is known, as typed.
 * @param stamp Who starts it and when.
 * @returns The job; or everything that is wrong with the request; or the variants to choose from; or the reason why no test is permitted.
 */
export function beginJob(
  machine: Machine,
  request: JobRequest,
  stamp: Stamp,
): Result<OpenJob, JobRefusal | ChooseAnswer> {
  const chosen = chooseBuild(machine, request.build);
  if (!chosen.ok) return chosen;
  const harness = machine.harness(chosen.value.build.id);
  if (!harness) throw new RangeError(`Cannot start a job: build "${chosen.value.build.id}" is of another machine`);
  const read = readFacts(harness, request);
  const problems = [...missing(request), ...(read.ok ? [] : read.error)];
  if (!read.ok || problems.length > 0) return refuse("wrong-input", "The job was not started.", problems);
  const { complaint, codes, symptoms, adapters } = read.value;
  const started = startJob(harness, {
    id: request.id,
    stamp,
    complaint,
    codes,
    symptoms,
    ...(adapters && { adapters }),
  });
  if (!started.ok) return err(refusalOf(started.error));
  const unknown = weightProblems(started.value, read.value.weights);
  if (unknown.length > 0) return refuse("wrong-input", "The job was not started.", unknown);
  const assumed = chosen.value.assumptions.map((text): string => text);
  return ok({
    machine,
    state: withRest(started.value, { ...read.value, notes: [...assumed, ...read.value.notes] }, stamp),
  });
}

function withRest(state: JobState, { weights, notes }: ReadFacts, stamp: Stamp): JobState {
  const weighted = weigh(state, weights, stamp);
  return notes.reduce((before, text) => noteEvent(before, { kind: "note", text }, stamp), weighted);
}

function missing({ codes = [], bad = [], id }: JobRequest): readonly JobProblem[] {
  const problems: JobProblem[] = [];
  if (codes.length === 0 && bad.length === 0) {
    problems.push({
      at: "--code, --fails",
      message: "There is no DTC and no failing item, so no circuit is known.",
      hint: "Give a DTC (--code FE111) or an item that fails (--fails B3).",
    });
  }
  if (id.length > 130)
    problems.push({ at: "--id", message: "The id is longer than 130 characters.", hint: "Shorten it." });
  return problems;
}
