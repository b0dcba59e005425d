// Runs the built command as if it had been called by itself.
import { spawn } from "node:child_process";
import { join } from "node:path";
import { root } from "./paths.mjs";

/**
 * Runs dist/cli/ohmward.js with the streams of this process and ends this process with its exit code.
 *
 * @param {readonly string[]} args its arguments
 */
export function runCommand(args) {
  // npm moves to the folder of the package; the files a person names are in the folder the person is in.
  const cwd = process.env.INIT_CWD ?? process.cwd();
  const child = spawn(process.execPath, [join(root, "dist", "cli", "ohmward.js"), ...args], { cwd, stdio: "inherit" });
  for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"]) process.on(signal, () => child.kill(signal));
  child.on("error", (error) => {
    console.error(`Cannot start the command: ${error.message}`);
    process.exit(2);
  });
  child.on("exit", (code, signal) => process.exit(code ?? (signal === "SIGINT" ? 130 : 143)));
}
