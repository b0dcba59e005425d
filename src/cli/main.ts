import { processIo } from "./process-io.ts";
import { runCommandLine } from "./program.ts";

// A reader that has seen enough, such as "head", closes the pipe; that is no fault of the command.
for (const stream of [process.stdout, process.stderr]) {
  stream.on("error", (fault: NodeJS.ErrnoException) => {
    if (fault.code !== "EPIPE") throw fault;
  });
}

// The code is set, not forced with process.exit(): what is written to a pipe must still arrive.
process.exitCode = await runCommandLine(process.argv.slice(2), processIo());
