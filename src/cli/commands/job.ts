import { InvalidArgumentError, Option, type Command } from "commander";
import { quantityProblem, readQuantity } from "../../base/index.ts";
import {
  JobOutcome,
  findCheck,
  jobChecks,
  jobNext,
  jobReport,
  jobShow,
  jobWeights,
  type JobAnswer,
  type OpenJob,
  type ValueRequest,
} from "../../application/index.ts";
import { showJob, stepJob, type JobOptions } from "../job/run-job.ts";
import type { CommandNeeds } from "./common.ts";
import { addJobNew } from "./job-new.ts";
import { collect, factsOptions, factsRequest, type FactsOptions } from "./job-options.ts";

/**
 * Adds the command `job` with its parts.
 *
 * @param program The program.
 * @param needs What the command is given.
 */
export function addJob(program: Command, needs: CommandNeeds): void {
  const job = program
    .command("job")
    .description("find a fault, one test at a time, from the complaint to the verified repair");
  addJobNew(job, needs);
  addNext(job, needs);
  addReading(job, needs);
  addSkip(job, needs);
  addEdit(job, needs);
  addUndo(job, needs);
  addAdd(job, needs);
  addRepair(job, needs);
  addVerification(job, needs);
  addClose(job, needs);
  addShow(job, needs);
  addReport(job, needs);
  addAdopt(job, needs);
}

function jobCommand(job: Command, name: string, description: string): Command {
  return job
    .command(name)
    .description(description)
    .argument("<job>", "file of the job")
    .option("-m, --machine <file>", "the machine, if its file is not beside the job and not in this folder")
    .option("--json", "answer as JSON on standard output");
}

interface MeterOptions extends JobOptions {
  readonly check?: string;
  readonly meterProven?: boolean;
  readonly uncertain?: boolean;
}

function meterOptions(command: Command): Command {
  return (
    command
      // A reading such as -0,02 begins like an option; a word that is neither is reported as no reading.
      .allowUnknownOption()
      .option("--meter-proven", "you proved the meter on a live point just before and just after")
      .option("--uncertain", "the reading was uncertain: the value counts for less")
  );
}

function valueOf(words: readonly string[], { meterProven, uncertain }: MeterOptions): ValueRequest {
  return { value: words.join(" "), isMeterProven: meterProven === true, isDoubtful: uncertain === true };
}

function addNext(job: Command, needs: CommandNeeds): void {
  jobCommand(job, "next", "the next test: what to do, the normal reading, what each outcome means")
    .option("-k, --check <code>", 'another permitted test in its place, by its code from "next --all"')
    .option("--all [words...]", "every permitted test instead, or those with the words, one line each")
    .action((file: string, options: NextOptions) =>
      showJob(needs, { file, options }, (open) => nextAnswer(open, options)),
    );
}

interface NextOptions extends JobOptions {
  readonly check?: string;
  readonly all?: true | readonly string[];
}

function nextAnswer(open: OpenJob, { all, check }: NextOptions): JobAnswer {
  if (all !== undefined) return jobChecks(open, all === true ? {} : { words: all.join(" ") });
  if (check === undefined) return jobNext(open);
  const found = findCheck(open.state.model.checks, check);
  return found.ok ? jobNext(open, { check: found.value }) : found.error;
}

function addReading(job: Command, needs: CommandNeeds): void {
  const command = jobCommand(job, "record", "record the reading or finding of the next test")
    .argument("<value...>", "such as 12.4 V, 350 mV, 0.6 ohm, over range, unsteady, not sure, or the finding")
    .option("-k, --check <code>", 'another permitted test, by its code from "next --all"');
  meterOptions(command).action((file: string, words: readonly string[], options: MeterOptions) => {
    const { check } = options;
    const step = { kind: "reading" as const, ...valueOf(words, options), ...(check === undefined ? {} : { check }) };
    return stepJob(needs, { file, options }, step);
  });
}

function addSkip(job: Command, needs: CommandNeeds): void {
  jobCommand(job, "skip", "skip a test that cannot be done; another one is proposed")
    .argument("[reason...]", "why")
    .option("-k, --check <code>", "a test other than the next one")
    .action((file: string, words: readonly string[], options: MeterOptions) => {
      const { check } = options;
      const reason = words.join(" ");
      const step = { ...(reason === "" ? {} : { reason }), ...(check === undefined ? {} : { check }) };
      return stepJob(needs, { file, options }, { kind: "skip", ...step });
    });
}

function addEdit(job: Command, needs: CommandNeeds): void {
  const command = jobCommand(job, "correct", "correct an earlier reading")
    .argument("<event>", 'number of the reading, from "show"')
    .argument("<value...>", "the correct reading");
  meterOptions(command).action((file: string, event: string, words: readonly string[], options: MeterOptions) =>
    stepJob(needs, { file, options }, { kind: "correct", event, ...valueOf(words, options) }),
  );
}

function addUndo(job: Command, needs: CommandNeeds): void {
  jobCommand(job, "undo", "undo the last step; undo again to restore it")
    .argument("[event]", 'number of the event, from "show" (the last step, if left out)')
    .action((file: string, event: string | undefined, options: JobOptions) =>
      stepJob(needs, { file, options }, { kind: "undo", ...(event === undefined ? {} : { event }) }),
    );
}

function addAdd(job: Command, needs: CommandNeeds): void {
  factsOptions(
    jobCommand(job, "add", "record later facts: trouble codes, symptoms, conditions, starting probabilities, notes"),
  ).action((file: string, options: JobOptions & FactsOptions) =>
    stepJob(needs, { file, options }, { kind: "add", ...factsRequest(options) }),
  );
}

interface RepairOptions extends JobOptions {
  readonly cause?: string;
  readonly causeItem?: string;
  readonly part: readonly string[];
  readonly minutes?: number;
  readonly inVain?: boolean;
}

function addRepair(job: Command, needs: CommandNeeds): void {
  jobCommand(job, "repair", "record a repair; the repair verification comes next")
    .argument("<words...>", "the repair")
    .option("--cause <words>", "root cause: why it failed")
    .option("--cause-item <name>", "the cause that was repaired (the most probable one, if left out)")
    .option("--part <number>", "a part that was used; may be repeated", collect, [])
    .option("--minutes <number>", "time it took", readMinutes)
    .option("--in-vain", "complaint still present: the repaired item becomes improbable, and testing goes on")
    .action((file: string, words: readonly string[], options: RepairOptions) => {
      const { cause, causeItem: suspect, part, minutes, inVain } = options;
      const step = {
        kind: "repair" as const,
        text: words.join(" "),
        parts: part,
        ...(cause === undefined ? {} : { cause }),
        ...(suspect === undefined ? {} : { suspect }),
        ...(minutes === undefined ? {} : { minutes }),
        ...(inVain === true && { isInVain: true }),
      };
      return stepJob(needs, { file, options }, step);
    });
}

function readMinutes(text: string): number {
  const read = readQuantity(text, { units: ["min"] });
  if (read.kind === "value" && read.value >= 0 && read.value <= 100_000) return read.value;
  const why = read.kind === "value" ? "" : quantityProblem(text, read);
  throw new InvalidArgumentError(`Write minutes as a number, such as 25. ${why}`.trim());
}

function addVerification(job: Command, needs: CommandNeeds): void {
  const command = jobCommand(job, "verify", "record a result of the repair verification")
    .argument("<number>", 'number of the verification, from "next"', readNumber)
    .argument("<value...>", "the reading; for a trial works, fails or not sure (unsure)");
  meterOptions(command).action((file: string, number: number, words: readonly string[], options: MeterOptions) =>
    stepJob(needs, { file, options }, { kind: "proof", number, ...valueOf(words, options) }),
  );
}

function readNumber(text: string): number {
  if (/^\d{1,3}$/u.test(text)) return Number(text);
  throw new InvalidArgumentError('Write the number of the verification, as "ohmward job next" lists it.');
}

interface CloseOptions extends JobOptions {
  readonly outcome: JobOutcome;
  readonly notChecked?: string;
}

function addClose(job: Command, needs: CommandNeeds): void {
  const how = new Option("--outcome <how>", "outcome of the job").choices(JobOutcome.options);
  jobCommand(job, "close", "close the job")
    .addOption(how.makeOptionMandatory())
    .option("--not-checked <words>", "what was not tested")
    .action((file: string, options: CloseOptions) => {
      const { outcome, notChecked } = options;
      const step = { kind: "close" as const, outcome, ...(notChecked === undefined ? {} : { notChecked }) };
      return stepJob(needs, { file, options }, step);
    });
}

function addShow(job: Command, needs: CommandNeeds): void {
  jobCommand(job, "show", "complaint, possible causes and the job log")
    .option("--probabilities", "starting probability of each fault with the reason, instead")
    .action((file: string, options: JobOptions & { readonly probabilities?: boolean }) =>
      showJob(needs, { file, options }, (open) => (options.probabilities === true ? jobWeights(open) : jobShow(open))),
    );
}

function addReport(job: Command, needs: CommandNeeds): void {
  jobCommand(job, "report", "repair report: complaint, cause, correction, every test")
    .option("--form", "a form for a clipboard instead, with blanks for the work that remains")
    .action((file: string, options: JobOptions) => showJob(needs, { file, options }, jobReport));
}

function addAdopt(job: Command, needs: CommandNeeds): void {
  jobCommand(job, "update-data", "continue with changed harness data").action((file: string, options: JobOptions) =>
    stepJob(needs, { file, options }, { kind: "adopt" }),
  );
}
