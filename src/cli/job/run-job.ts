import { resolve } from "node:path";
import { realpath } from "node:fs/promises";
import { err, ok, unreachable, type Result } from "../../base/index.ts";
import type { JobRecord, JobStore, Stamp, StoreFault } from "../../job-records/index.ts";
import {
  type ErrorReport,
  type JobAnswer,
  jobNext,
  type JobRefusal,
  jobRefusal,
  type JobStep,
  mergeRecords,
  type OpenJob,
  openJob,
  saveJoined,
  type StepTaken,
  takeStep,
} from "../../application/index.ts";
import type { CommandNeeds } from "../commands/common.ts";
import { tellError } from "../tell.ts";
import { findMachine, type FoundMachine } from "./find-machine.ts";
import { jobFile } from "./job-file.ts";
import { realDisk, type JobDisk } from "./job-disk.ts";
import { tellJob } from "./tell-job.ts";

/** The options that every command about a job has. */
export interface JobOptions {
  readonly machine?: string;
  readonly json?: boolean;
  readonly form?: boolean;
}

/** A job file that was opened, with its machine and its store. */
interface Opened {
  readonly store: JobStore;
  readonly record: JobRecord;
  readonly found: FoundMachine;
}

/**
 * Shows a view of a job; nothing is written.
 *
 * @param needs What the command is given.
 * @param asked File and options as typed.
 * @param view What is shown.
 */
export async function showJob(
  needs: CommandNeeds,
  asked: { readonly file: string; readonly options: JobOptions },
  view: (job: OpenJob) => JobAnswer,
): Promise<void> {
  const opened = await openFile(needs, asked);
  const job = opened.ok ? openJob(opened.value.found.machine, opened.value.record) : opened;
  tell(needs, asked, job.ok ? view(job.value) : job.error);
}

/**
 * Takes a step of a job, saves it, and shows what is next. What others saved meanwhile is kept beside it.
 *
 * @param needs What the command is given.
 * @param asked File and options as typed.
 * @param step The step.
 */
export async function stepJob(
  needs: CommandNeeds,
  asked: { readonly file: string; readonly options: JobOptions },
  step: JobStep,
): Promise<void> {
  const opened = await openFile(needs, asked);
  if (!opened.ok) return tell(needs, asked, opened.error);
  const { found, record } = opened.value;
  const taken = takeStep(found.machine, record, step, newStamp());
  tell(needs, asked, taken.ok ? await saved(opened.value, taken.value) : taken.error);
}

async function saved({ store, record, found }: Opened, taken: StepTaken): Promise<JobAnswer> {
  const { written } = taken;
  const isMoved = taken.record.machine !== record.machine;
  // Two copies become one; the machine of the stored one is kept, since that may have been changed on purpose elsewhere.
  const join = (mine: JobRecord, theirs: JobRecord): JobRecord => ({
    ...mergeRecords(theirs, mine),
    ...(isMoved && { machine: mine.machine }),
  });
  const stored = await saveJoined(store, taken.record, record.events.length, join);
  if (!stored.ok) return storeRefusal(stored.error);
  const isJoined = stored.value !== taken.record;
  const opened = isJoined ? openJob(found.machine, stored.value) : taken.opened;
  const others = isJoined ? " Other people recorded steps in this job meanwhile. Nothing is lost." : "";
  return opened.ok
    ? jobNext(opened.value, { written: { ...written, text: `${written.text}${others}` } })
    : opened.error;
}

async function openFile(
  { io }: CommandNeeds,
  { file, options }: { readonly file: string; readonly options: JobOptions },
): Promise<Result<Opened, JobRefusal | ErrorReport>> {
  const disk = realDisk();
  const store = await storeOf(disk, file);
  const record = await store.load(file);
  if (!record.ok) return err(storeRefusal(record.error));
  const named = options.machine === undefined ? {} : { named: options.machine };
  const found = await findMachine({ io, disk, job: file, ...named }, record.value);
  return found.ok ? ok({ store, record: record.value, found: found.value }) : found;
}

/** The store of a job file. A link is followed: the file behind it is replaced, not the link. */
export async function storeOf(disk: JobDisk, file: string): Promise<JobStore> {
  const path = resolve(file);
  return jobFile(disk, await realpath(path).catch(() => path));
}

/** Who writes and when. The moment is the one of this computer's clock. */
export function newStamp(): Stamp {
  return { at: new Date().toISOString(), writer: realDisk().unique().slice(0, 4) };
}

/** Why a job file was not read or written, in the words of an answer. */
export function storeRefusal(fault: StoreFault): JobRefusal {
  switch (fault.kind) {
    case "missing":
      return jobRefusal("unreadable", `There is no job file ${fault.id}. Start a job with "ohmward job new".`);
    case "unreadable": {
      const problems = fault.problems.map(({ code, path, message }) => ({
        at: path === "" ? "the file" : path,
        message: `${message}.`,
        hint:
          code === "newer-version"
            ? "It is not changed."
            : "It is not changed. Restore it from a copy, or start a new job in another file.",
      }));
      const isNewer = fault.problems.some(({ code }) => code === "newer-version");
      const what = isNewer ? "was written by a newer version of this program" : "is not a readable job record";
      return jobRefusal("unreadable", `${fault.id} ${what}.`, problems);
    }
    case "changed-elsewhere":
      return jobRefusal("exists", `This file already has a job: ${fault.stored.id}. It is not changed.`);
    case "cannot-write":
      return jobRefusal("not-saved", `The job file cannot be read or written: ${fault.reason}.`);
    default:
      return unreachable(fault);
  }
}

function tell(
  { io, finish }: CommandNeeds,
  { file, options }: { readonly file: string; readonly options: JobOptions },
  answer: JobAnswer | ErrorReport,
): void {
  const { json = false, machine, form = false } = options;
  if (answer.kind === "error") return finish(tellError(io, answer, json));
  const named = machine === undefined ? {} : { machine };
  finish(tellJob(io, answer, { asJson: json, file, asSheet: form, ...named }));
}
