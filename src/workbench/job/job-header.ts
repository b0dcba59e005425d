import { resolveItem, type Item } from "../../trace/index.ts";
import type { AnswerHeader } from "../answer.ts";
import { cautionsFor } from "../cautions.ts";
import { makeHeader } from "../header.ts";
import { jobStage } from "./job-stage.ts";
import type { JobNextAnswer } from "./job-answers.ts";
import type { OpenJob } from "./open-job.ts";
import { cautionsOfCheck } from "./check-facts.ts";
import type { PermittedCheck } from "./check-codes.ts";

const ASSUMED: readonly string[] = [
  'Weights of the faults before the first reading are judgement, not counts ("ohmward job show --weights" lists them).',
  "One fault is looked for; pairs of faults are looked at when readings surprise.",
  "Minutes are planned from the access times of the document and usual times for the rest.",
];

/**
 * What every answer about a job carries.
 *
 * @param job The job.
 * @param check The check a person is sent to, if there is one: its places and state give the cautions.
 */
export function jobHeader({ machine, state }: OpenJob, check?: PermittedCheck): AnswerHeader {
  const { harness, setup } = state;
  const at = check?.need.state ?? setup.state;
  const scene = {
    machine,
    harness,
    state: harness.document.states.find(({ id }) => id === at),
    isStateAssumed: false,
    assumptions: [],
  };
  const items = check ? itemsOf(check).map((item) => resolveItem(harness, item) ?? item) : [];
  const own = check ? cautionsOfCheck(state, check) : [];
  return makeHeader(scene, { cautions: [...new Set([...cautionsFor(scene, items), ...own])], assumptions: ASSUMED });
}

function itemsOf(check: PermittedCheck): readonly Item[] {
  return "red" in check ? [check.red.item, check.black.item] : [check.at];
}

/** Which job an answer is about, and how far it is. */
export function jobFacts({ state }: OpenJob): JobNextAnswer["job"] {
  const { record, facts, minutes, setup } = state;
  return {
    id: record.id,
    openedAt: record.openedAt,
    stage: jobStage(state),
    readings: facts.readings.length,
    minutes,
    stands: { state: setup.state, unplugged: setup.unplugged },
  };
}
