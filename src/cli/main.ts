import { processIo } from "./process-io.ts";
import { runCommandLine } from "./program.ts";
import { safeIo } from "./safe-io.ts";
import { tellFault } from "./tell-fault.ts";
import { whyNotWritten } from "./write-bytes.ts";

const args = process.argv.slice(2);
const io = processIo();

// What is thrown where nobody waits for it, such as in a timer.
process.on("uncaughtException", (fault) => {
  const end = (): never => process.exit(3);
  tellFault(safeIo(io), fault, { args, asJson: false }).then(end, end);
});

// A reader that has seen enough, such as "head", closes the pipe; that is no fault of the command.
process.stdout.on("error", (fault: NodeJS.ErrnoException) => {
  if (fault.code === "EPIPE" || process.exitCode === 2) return;
  process.exitCode = 2;
  io.err(`Cannot write to standard output: ${whyNotWritten(fault)}\n`);
});
// Nothing is left to tell it to.
process.stderr.on("error", () => undefined);

const code = await runCommandLine(args, io);
// The code is set, not forced with process.exit(): what is written to a pipe must still arrive.
process.exitCode ??= code;
