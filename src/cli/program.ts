import { Command, CommanderError } from "commander";
import type { Result } from "../base/index.ts";
import { addAnswer } from "./commands/answer.ts";
import { addPath } from "./commands/path.ts";
import type { Finish } from "./commands/common.ts";
import { addCompare } from "./commands/compare.ts";
import { addExpected } from "./commands/expected.ts";
import { addExport } from "./commands/export.ts";
import { addFind } from "./commands/find.ts";
import { addGaps } from "./commands/gaps.ts";
import { addImport } from "./commands/import.ts";
import { addTraining } from "./commands/training.ts";
import { addJoin } from "./commands/join.ts";
import { addJob } from "./commands/job.ts";
import { addTestPoints } from "./commands/test-points.ts";
import { addServe } from "./commands/serve.ts";
import { addCommon } from "./commands/common-wiring.ts";
import { addCircuit } from "./commands/circuit.ts";
import { addValidate } from "./commands/validate.ts";
import { addEffect } from "./commands/effect.ts";
import type { ExitCode } from "./exit-code.ts";
import type { CommandIo } from "./io.ts";
import { todaysWords } from "./old-words.ts";
import { addReportOptions, reportWish, wantsJson, type ReportWish } from "./report-wish.ts";
import { safeIo } from "./safe-io.ts";
import { tellError } from "./tell.ts";
import { tellFault } from "./tell-fault.ts";

const AFTER_HELP = `
<file> is a harness document (*.ohm.json), "demo" for the machine that comes with the program, or "-" for standard input.
Import other files (CSV, XLSX, KBL, VEC) with "import".
Items are named by address or id: A1.X1:36 a contact, XC1m:3 one side of it, W89 a wire, SP11 a splice, B3 a component,
A3.F3 a fuse, 5V-A a net, FE111 a trouble code.

The command ends with 0 when it has answered, 1 when the answer is "no" or problems were found, 2 when the question or
the file was wrong, 3 when the program itself failed. Then a file with the case is written into this folder, or where
--report <file> says; --report-files puts the files that were read into it too.`;

/**
 * Runs one command line.
 *
 * @param args The arguments, without program and script.
 * @param world The world it runs in.
 * @returns How the command ends.
 */
export async function runCommandLine(args: readonly string[], world: CommandIo): Promise<ExitCode> {
  const run: Run = { hasOut: false, read: new Map() };
  const io = watched(safeIo(world), run, reportWish(args));
  try {
    return await runWords(args, io);
  } catch (fault) {
    return tellFault(io, fault, { args, read: run.read, asJson: wantsJson(args) && !run.hasOut });
  }
}

/** What a command did until now. */
interface Run {
  hasOut: boolean;
  readonly read: Map<string, Uint8Array>;
}

/** The same world, which takes note of what is done in it; what is read is kept only where it may go into a case. */
function watched(io: CommandIo, run: Run, { withFiles }: ReportWish): CommandIo {
  const keep = (name: string, bytes: Result<Uint8Array, string>): typeof bytes => {
    if (withFiles && bytes.ok) run.read.set(name, bytes.value);
    return bytes;
  };
  return {
    ...io,
    out: (text) => {
      run.hasOut = true;
      io.out(text);
    },
    readFile: async (path) => keep(path, await io.readFile(path)),
    readInput: async () => keep("standard input", await io.readInput()),
  };
}

async function runWords(typed: readonly string[], io: CommandIo): Promise<ExitCode> {
  const { args, told } = todaysWords(typed);
  for (const line of told) io.err(`${line}\n`);
  let code: ExitCode = 0;
  const finish: Finish = (result) => {
    code = result;
  };
  const program = makeProgram(io, finish);
  try {
    await program.parseAsync([...args], { from: "user" });
    return code;
  } catch (fault) {
    if (!(fault instanceof CommanderError)) throw fault;
    if (fault.exitCode === 0) return 0;
    // Help that is shown because nothing was asked has been written already.
    if (fault.code === "commander.help") return 2;
    const report = { kind: "error", code: "wrong-command", text: ownWords(fault), problems: [] } as const;
    code = tellError(io, report, wantsJson(args));
    io.err("For help: ohmward --help\n");
    return code;
  }
}

function makeProgram(io: CommandIo, finish: Finish): Command {
  const program = new Command("ohmward")
    .description("Find the one bad wire, contact, splice, ground or part in the wiring of a machine.")
    .version(io.version, "--version", "show the version")
    .helpOption("-h, --help", "show this help")
    .helpCommand("help [command]", "show the help of a command")
    .configureOutput({
      writeOut: io.out,
      writeErr: io.err,
      // Faults of a command line are told once, by runCommandLine().
      outputError: () => undefined,
    })
    .exitOverride()
    .addHelpText("after", AFTER_HELP);
  const parts = [
    addCircuit,
    addPath,
    addCommon,
    addEffect,
    addTestPoints,
    addExpected,
    addCompare,
    addFind,
    addJob,
    addGaps,
    addAnswer,
    addJoin,
    addValidate,
    addImport,
    addExport,
    addTraining,
    addServe,
  ];
  for (const add of parts) add(program, { io, finish });
  addReportOptions(program);
  return program;
}

function ownWords({ message }: CommanderError): string {
  const text = message.replace(/^error: /u, "");
  return `${text.charAt(0).toUpperCase()}${text.slice(1).replaceAll("\n", " ")}`;
}
