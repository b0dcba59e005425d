// npm test [-- --without-browser]: every check, in order, until one fails. Plain Node; installs what it needs first.
import { spawn, spawnSync } from "node:child_process";
import { existsSync, readFileSync, readdirSync, rmSync } from "node:fs";
import { join } from "node:path";
import { cacheFolder, root } from "./paths.mjs";
import { ensureBuilt, ensureChromium, ensurePackages } from "./ready.mjs";

const inCi = process.env.CI === "true" || process.env.CI === "1";
const withoutBrowser = process.argv.includes("--without-browser");
if (withoutBrowser && inCi) stop("With CI=true the browser tests cannot be left out.");

ensurePackages();
const chromium = withoutBrowser ? undefined : ensureChromium();
if (!withoutBrowser && !chromium) {
  stop(
    inCi ? "With CI=true a browser is needed." : "To run the other checks all the same: npm test -- --without-browser",
  );
}

// Two at a time: each of them uses one core.
await steps([
  ["Lint of the tests", "check:lint:tests"],
  ["Lint of all else", "check:lint:source"],
  ["Format", "check:format"],
  ["Types of the core", "check:core"],
  ["Types of the command", "check:cli"],
  ["Types of the screen", "check:ui"],
  ["Types of the tests", "check:tests"],
]);
step("Generated files are up to date", generatedFilesMatch);
// Before the tests, since some of them run the built command.
step("Build", () => ensureBuilt(["app", "cli", "library"], { quiet: true }));

const outcomes = [];
runTests("Unit tests", ".ci/vitest.config.ts");
if (chromium) runTests("Browser tests", ".ci/vitest.browser.config.ts");
const skipped = outcomes.filter(({ outcome }) => outcome !== "passed" && outcome !== "failed");
// A test may be skipped only for want of a program that not everyone has, and then says so in its name.
const unexcused = skipped.filter(({ name }) => !name.includes("(needs "));
if (inCi && unexcused.length > 0) {
  const list = unexcused.map(({ name }) => `  ${name}`).join("\n");
  console.log(`\nWith CI=true no test may be skipped, except those with "(needs ...)" in their name:\n${list}`);
  process.exitCode = 1;
}
printTotal();

function step(title, act) {
  console.log(`\n== ${title}`);
  const start = performance.now();
  const isFine = act();
  const seconds = ((performance.now() - start) / 1000).toFixed(1);
  if (!isFine) stop(`${title}: FAILED after ${seconds} s`);
  console.log(`${title}: fine, ${seconds} s`);
}

/** Runs scripts two at a time; what each prints is shown when it has ended. All of them end before the first that failed stops the run. */
async function steps(list) {
  const waiting = [...list];
  const failed = [];
  const work = async () => {
    for (let next = waiting.shift(); next; next = waiting.shift()) {
      const [title, name] = next;
      const start = performance.now();
      const { isFine, text } = await scriptQuietly(name);
      const seconds = ((performance.now() - start) / 1000).toFixed(1);
      console.log(`\n== ${title}\n${text}${title}: ${isFine ? "fine" : "FAILED"}, ${seconds} s`);
      if (!isFine) failed.push(title);
    }
  };
  await Promise.all([work(), work()]);
  if (failed.length > 0) stop(`${failed.join(", ")}: FAILED`);
}

function scriptQuietly(name) {
  const [program, ...args] = scriptWords(name);
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [binary(program), ...args], { cwd: root, stdio: ["ignore", "pipe", "pipe"] });
    let text = "";
    child.stdout.on("data", (data) => (text += data));
    child.stderr.on("data", (data) => (text += data));
    child.on("close", (code) => resolve({ isFine: code === 0, text }));
  });
}

/** Vitest prints its own summary and time, so nothing is added here; when a test fails the total is the last line as well. */
function runTests(title, config) {
  console.log(`\n== ${title}`);
  const count = join(cacheFolder, "test-count.json");
  rmSync(count, { force: true });
  const args = ["run", "-c", config, "--reporter=default", `--reporter=${join(root, ".ci", "count-reporter.mjs")}`];
  const isFine = run(process.execPath, [binary("vitest"), ...args], { OHMWARD_TEST_COUNT: count });
  if (existsSync(count)) outcomes.push(...JSON.parse(readFileSync(count, "utf8")));
  if (isFine && existsSync(count)) return;
  if (outcomes.every(({ outcome }) => outcome !== "failed")) outcomes.push({ name: title, outcome: "failed" });
  printTotal();
  process.exit(1);
}

function printTotal() {
  if (withoutBrowser) console.log("\n*** BROWSER TESTS WERE NOT RUN (--without-browser) ***");
  const of = (wanted) => outcomes.filter(({ outcome }) => outcome === wanted).length;
  const others = outcomes.length - of("passed") - of("failed");
  console.log(`${of("passed")} passed, ${of("failed")} failed${others > 0 ? `, ${others} skipped` : ""}`);
}

function stop(message) {
  console.error(`\n${message}`);
  process.exit(1);
}

// The scripts of package.json, without the start of a second npm for each.
function scriptWords(name) {
  return JSON.parse(readFileSync(join(root, "package.json"), "utf8")).scripts[name].split(" ");
}

function binary(program) {
  const folder = program === "tsc" ? "typescript" : program;
  const { bin } = JSON.parse(readFileSync(join(root, "node_modules", folder, "package.json"), "utf8"));
  return join(root, "node_modules", folder, typeof bin === "string" ? bin : bin[program]);
}

function run(program, args, more = {}) {
  const env = { ...process.env, ...(chromium ? { OHMWARD_CHROMIUM: chromium } : {}), ...more };
  return spawnSync(program, args, { cwd: root, stdio: "inherit", env }).status === 0;
}

function generatedFilesMatch() {
  const before = schemaFiles();
  const [, ...args] = scriptWords("generate");
  if (!run(process.execPath, args)) return false;
  const after = schemaFiles();
  const changed = [...new Set([...before.keys(), ...after.keys()])].filter(
    (name) => before.get(name) !== after.get(name),
  );
  if (changed.length === 0) return true;
  console.error(`These files of data-schemas/ were not up to date and have been written anew: ${changed.join(", ")}`);
  return false;
}

function schemaFiles() {
  const folder = join(root, "data-schemas");
  const fileNames = existsSync(folder) ? readdirSync(folder) : [];
  return new Map(fileNames.map((name) => [name, readFileSync(join(folder, name), "latin1")]));
}
