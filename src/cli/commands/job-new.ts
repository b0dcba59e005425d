import { basename } from "node:path";
import type { Command } from "commander";
import { beginJob, jobNext, type ErrorReport, type JobAnswer } from "../../application/index.ts";
import type { Stamp } from "../../job-records/index.ts";
import type { ExitCode } from "../exit-code.ts";
import { realDisk } from "../job/job-disk.ts";
import { findMachine } from "../job/find-machine.ts";
import { newStamp, storeOf, storeRefusal } from "../job/run-job.ts";
import { tellJob } from "../job/tell-job.ts";
import { readMachine } from "../read-machine.ts";
import { wrongCommand } from "../save-file.ts";
import { tellAnswer, tellError } from "../tell.ts";
import type { CommandNeeds } from "./common.ts";
import { factsOptions, factsRequest, type FactsOptions } from "./job-options.ts";

interface NewOptions extends FactsOptions {
  readonly job: string;
  readonly build?: string;
  readonly id?: string;
  readonly json?: boolean;
}

/** Adds the command `job new`. */
export function addJobNew(job: Command, needs: CommandNeeds): void {
  const command = job
    .command("new")
    .description("start a job and show the first test")
    .argument("<machine>", 'harness document, "demo" or "-"')
    .requiredOption(
      "-j, --job <file>",
      "file of the job, such as limp-mode.ohmjob.json; an existing file is not changed",
    )
    .option("-b, --build <id>", "build (variant) of the machine; may be left out if one build only has no options")
    .option("--id <text>", "id of the job (made from file name and moment, if left out)");
  factsOptions(command)
    .option("--json", "answer as JSON on standard output")
    .action(async (machine: string, options: NewOptions) => {
      const done = await runNew(needs, machine, options);
      if (typeof done === "number") return needs.finish(done);
      if (done.kind === "error") return needs.finish(tellError(needs.io, done, options.json === true));
      const named = (await isFound(needs, options, done)) ? {} : { machine };
      return needs.finish(tellJob(needs.io, done, { asJson: options.json === true, file: options.job, ...named }));
    });
}

async function runNew(
  { io }: CommandNeeds,
  file: string,
  options: NewOptions,
): Promise<JobAnswer | ErrorReport | ExitCode> {
  const { job, build, id, json = false } = options;
  if (job === file || job === "-") return wrongCommand("A job needs its own file. Name one with --job.");
  const store = await storeOf(realDisk(), job);
  const there = await store.load(job);
  if (there.ok) return storeRefusal({ kind: "changed-elsewhere", stored: there.value });
  if (there.error.kind !== "missing") return storeRefusal(there.error);
  const machine = await readMachine(io, file);
  if (!machine.ok) return machine.error;
  const stamp = newStamp();
  const request = { ...factsRequest(options), id: id ?? jobId(job, stamp), ...(build === undefined ? {} : { build }) };
  const begun = beginJob(machine.value, request, stamp);
  if (!begun.ok) return begun.error.kind === "job-refused" ? begun.error : tellAnswer(io, begun.error, json);
  const saved = await store.save(begun.value.state.record, 0);
  if (!saved.ok) return storeRefusal(saved.error);
  const events = saved.value.events.map((event) => event.id);
  return jobNext(begun.value, { written: { events, text: `Job ${saved.value.id} is started and saved in ${job}.` } });
}

/** Whether later commands find the machine by themselves. */
async function isFound({ io }: CommandNeeds, { job }: NewOptions, answer: JobAnswer): Promise<boolean> {
  if (answer.kind !== "job-next") return true;
  const disk = realDisk();
  const record = await (await storeOf(disk, job)).load(job);
  return !record.ok || (await findMachine({ io, disk, job }, record.value)).ok;
}

/** File name, moment and writer: unique wherever the job may be stored later. */
function jobId(file: string, { at, writer }: Stamp): string {
  const name = basename(file)
    .replace(/(?:\.ohmjob)?\.json$/u, "")
    .slice(0, 60);
  return `${name}-${at.slice(0, 16).replaceAll(/[-:]/gu, "").replace("T", "-")}-${writer}`;
}
