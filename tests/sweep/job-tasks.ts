import type { SeededRandom } from "ohmward/base";
import { isMeterCheck, outcomesOf } from "ohmward/diagnosis";
import { readRecord, writeRecord } from "ohmward/job-records";
import {
  beginJob,
  ChooseAnswer,
  JobChecksAnswer,
  JobNextAnswer,
  JobRefusal,
  JobReportAnswer,
  JobShowAnswer,
  JobWeightsAnswer,
  jobChecks,
  jobNext,
  jobReport,
  jobShow,
  jobWeights,
  openJob,
  takeStep,
  writeAnswer,
  writeJobAnswer,
  type FactsRequest,
  type JobAnswer,
  type JobStep,
  type OpenJob,
} from "ohmward/application";
import { z } from "zod";
import { checked } from "./checked.ts";
import { some, type Names } from "./names.ts";
import type { Swept, Task } from "./task.ts";

const AnyJobAnswer = z.discriminatedUnion("kind", [
  JobNextAnswer,
  JobChecksAnswer,
  JobShowAnswer,
  JobWeightsAnswer,
  JobReportAnswer,
  JobRefusal,
]);
const stamp = { at: "2031-01-05T07:30:00Z", writer: "s" };

/** A job about some things of each sort: readings, skip, correction, undo, repair, proofs, close, every view, the record read back. */
export function* jobTasks(swept: Swept): Generator<Task> {
  const { names, random, most } = swept;
  for (const [sort, ids] of names.items) {
    for (const id of some(ids, most.jobs, random)) {
      const facts = sort === "code" ? { codes: [id] } : { bad: [id] };
      const request = { ...facts, ...moreFacts(names, random) };
      yield { name: `job ${JSON.stringify({ build: swept.build, ...request })}`, run: () => runJob(swept, request) };
    }
  }
}

function moreFacts(names: Names, random: SeededRandom): FactsRequest {
  const code = (): string => random.pick([...(names.items.get("code") ?? []), "no code"]);
  const facts: readonly FactsRequest[] = [
    {},
    { codes: [code(), `${code()}=stored`] },
    { bad: [random.pick(names.all), random.pick(names.all)] },
    { good: [random.pick(names.all)], shows: "intermittent", onlyWhen: ["hot", "wet"] },
    { recent: [`opened = ${random.pick(names.all)}`], shows: "once" },
    { weights: [`${random.pick(names.all)}=0: never`, `${random.pick(names.all)}=1000: always`] },
    { adapters: [], notes: ["😀"], onlyWhen: ["cold", "dry"] },
  ];
  return random.next() < 0.5 ? {} : random.pick(facts);
}

function runJob({ machine, build, random }: Swept, facts: FactsRequest): void {
  const begun = beginJob(machine, { id: "S-1", build, complaint: "as told", ...facts }, stamp);
  if (!begun.ok) {
    const { error } = begun;
    if (error.kind === "job-refused") return seen(error);
    return checked(error, ChooseAnswer, writeAnswer(error));
  }
  let job = begun.value;
  const take = (step: JobStep): void => {
    const taken = takeStep(machine, job.state.record, step, stamp);
    if (!taken.ok) return seen(taken.error);
    const { opened, written } = taken.value;
    if (!opened.ok) return seen(opened.error);
    job = opened.value;
    seen(jobNext(job, { written }));
  };
  views(job);
  for (let reading = 0; reading < 3; reading++) {
    take({ kind: "reading", value: typed(job, random), ...(random.next() < 0.2 ? { isMeterProven: true } : {}) });
  }
  views(job);
  take({ kind: "skip", reason: "the cover does not come off" });
  take({ kind: "undo" });
  take({ kind: "correct", event: "1", value: typed(job, random) });
  take({ kind: "add", notes: ["seen"], ...(random.next() < 0.3 ? facts : {}) });
  take({ kind: "repair", text: "repaired", parts: ["1"], minutes: 20, cause: "rubbed through" });
  for (const proof of [1, 2, 99])
    take({ kind: "proof", number: proof, value: random.pick(["works", "fails", "12 V", "0.1 ohm"]) });
  views(job);
  take({ kind: "close", outcome: random.pick(["repaired", "no-fault-found", "referred"]) });
  take({ kind: "reading", value: "12 V" });
  take({ kind: "undo" });
  views(job);
  readBack(machine, job);
}

/** What a person may type at the check that is asked for, sensible or at an end of what can be. */
function typed({ state, machine }: OpenJob, random: SeededRandom): string {
  const next = jobNext({ state, machine });
  const key = "check" in next.suggestion ? next.suggestion.check.key : "";
  const check = state.model.checks.get(key);
  if (!check) return "not sure";
  if (!isMeterCheck(check)) return random.pick([...outcomesOf(check).map(({ id }) => id), "as expected"]);
  const words = ["over range", "unstable", "as expected", "0", "-1000000000000", "12.4", "0,6", "9".repeat(300)];
  return random.pick(words);
}

function views(job: OpenJob): void {
  for (const answer of [jobNext(job), jobChecks(job), jobShow(job), jobWeights(job), jobReport(job)]) seen(answer);
  writeJobAnswer(jobReport(job), { file: "job.json", asSheet: true });
}

function seen(answer: JobAnswer): void {
  checked(answer, AnyJobAnswer, writeJobAnswer(answer, { file: "job.json", machine: "machine.json" }));
}

function readBack(machine: OpenJob["machine"], { state }: OpenJob): void {
  const read = readRecord(writeRecord(state.record));
  if (!read.ok) throw new Error(`The record cannot be read back: ${JSON.stringify(read.error)}`);
  const opened = openJob(machine, read.value);
  if (!opened.ok) throw new Error(`The job cannot be opened again: ${opened.error.text}`);
  const adopted = takeStep(machine, read.value, { kind: "adopt" }, stamp);
  if (!adopted.ok) seen(adopted.error);
}
