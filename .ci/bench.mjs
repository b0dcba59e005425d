// npm run bench [-- name ... --flag ...]: runs every tests/bench/*.ts, or those whose file name holds one of the words given.
import { spawnSync } from "node:child_process";
import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { root } from "./paths.mjs";

const folder = join(root, "tests", "bench");
const args = process.argv.slice(2);
// Words choose files; from the first flag on, everything is handed to the script.
const flagAt = args.findIndex((arg) => arg.startsWith("-"));
const words = flagAt < 0 ? args : args.slice(0, flagAt);
const flags = flagAt < 0 ? [] : args.slice(flagAt);
const files = (existsSync(folder) ? readdirSync(folder) : [])
  .filter((name) => name.endsWith(".ts") && !name.endsWith(".d.ts"))
  .filter((name) => words.length === 0 || words.some((word) => name.includes(word)))
  .sort();
if (files.length === 0) {
  console.error(`No file in tests/bench${words.length > 0 ? ` with ${words.join(" or ")} in its name` : ""}.`);
  process.exitCode = 1;
}
for (const name of files) {
  console.log(`\n== ${name}`);
  const command = [join(root, ".ci", "run-ts.mjs"), "--expose-gc", join(folder, name), ...flags];
  const run = spawnSync(process.execPath, command, { cwd: root, stdio: "inherit" });
  if (run.status !== 0) process.exitCode = 1;
}
