// npm start [-- options of "ohmward serve"]: everything needed from a fresh clone to the screen with the demo machine.
import { ensureBuilt, ensurePackages } from "./ready.mjs";
import { runCommand } from "./run-command.mjs";

ensurePackages();
if (ensureBuilt(["app", "cli"], { quiet: true })) runCommand(["serve", ...process.argv.slice(2)]);
else process.exitCode = 1;
