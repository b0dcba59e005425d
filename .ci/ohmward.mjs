// npm run -s ohmward -- <command>: the command of this source tree, built first when it is older than its sources.
// Without -s npm writes two lines of its own to the output; nothing in a package can turn them off.
import { ensureBuilt, ensurePackages } from "./ready.mjs";
import { runCommand } from "./run-command.mjs";

const args = process.argv.slice(2);
ensurePackages();
if (ensureBuilt(args.includes("serve") ? ["cli", "app"] : ["cli"], { quiet: true })) runCommand(args);
else process.exitCode = 2;
