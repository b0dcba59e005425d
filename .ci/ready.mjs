// Makes a fresh clone ready to run: packages, a browser, a build. Plain Node, no packages, since there may be none yet.
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import {
  accessSync,
  constants,
  existsSync,
  mkdirSync,
  readFileSync,
  readdirSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { delimiter, join } from "node:path";
import { writeDeclarations } from "./declarations.mjs";
import { cacheFolder, root } from "./paths.mjs";

/** Installs the packages of package-lock.json when they are missing or not the ones it lists. */
export function ensurePackages() {
  if (packagesMatch()) return;
  console.error("Installing packages (npm ci) ...");
  // Output goes to the error stream: a command that runs after this may be writing data to the other one.
  const npm = process.platform === "win32" ? "npm.cmd" : "npm";
  const flags = ["ci", "--include=dev", "--no-audit", "--no-fund", "--loglevel=error"];
  const run = spawnSync(npm, flags, { cwd: root, stdio: ["ignore", 2, 2], shell: process.platform === "win32" });
  if (run.status !== 0) {
    console.error("The packages could not be installed. Check the network, then run: npm ci");
    process.exit(run.status ?? 1);
  }
}

function packagesMatch() {
  const wanted = readLock(join(root, "package-lock.json"));
  const present = readLock(join(root, "node_modules", ".package-lock.json"));
  if (wanted === undefined || present === undefined) return false;
  for (const [path, entry] of Object.entries(wanted)) {
    // Optional packages are for one kind of machine each; those of another kind are rightly missing.
    if (path === "" || (entry.optional && present[path] === undefined)) continue;
    if (present[path]?.version !== entry.version || present[path]?.integrity !== entry.integrity) return false;
  }
  return true;
}

function readLock(path) {
  try {
    return JSON.parse(readFileSync(path, "utf8")).packages;
  } catch {
    return undefined;
  }
}

/**
 * Looks for Chromium: OHMWARD_CHROMIUM, then the usual names on the search path.
 *
 * @returns its path, or undefined
 */
export function findChromium() {
  const given = process.env.OHMWARD_CHROMIUM;
  if (given) return isProgram(given) ? given : undefined;
  const folders = ["/usr/bin", ...(process.env.PATH ?? "").split(delimiter)];
  const names = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];
  return names.flatMap((name) => folders.map((folder) => join(folder, name))).find(isProgram);
}

function isProgram(path) {
  try {
    accessSync(path, constants.X_OK);
    return statSync(path).isFile();
  } catch {
    return false;
  }
}

/**
 * Finds Chromium, or installs it where that is simple (root on Debian or its kin).
 *
 * @returns its path, or undefined after saying on the error stream what to do
 */
export function ensureChromium() {
  const found = findChromium();
  if (found) return found;
  if (process.env.OHMWARD_CHROMIUM) {
    console.error(`OHMWARD_CHROMIUM is "${process.env.OHMWARD_CHROMIUM}", which is not a program that can be run.`);
    return undefined;
  }
  if (process.getuid?.() === 0 && existsSync("/etc/debian_version")) {
    console.error("Installing Chromium (apt-get install chromium) ...");
    const env = { ...process.env, DEBIAN_FRONTEND: "noninteractive" };
    const options = { env, stdio: ["ignore", 2, 2] };
    spawnSync("apt-get", ["update", "-qq"], options);
    spawnSync("apt-get", ["install", "-y", "-qq", "--no-install-recommends", "chromium"], options);
  }
  const installed = findChromium();
  if (!installed) {
    console.error(
      "No Chromium found. Install it (Debian: apt-get install chromium) or set OHMWARD_CHROMIUM to the path of a Chromium.",
    );
  }
  return installed;
}

/** What can be built: which sources it is made of and what it leaves behind. */
const builds = {
  app: {
    config: ".ci/vite.app.config.ts",
    made: "dist/app/index.html",
    sources: ["src", "demo-harness", ".ci/vite.app.config.ts", ".ci/paths.mjs", "package-lock.json"],
    leaveOut: "src/cli",
  },
  cli: {
    config: ".ci/vite.cli.config.ts",
    made: "dist/cli/ohmward.js",
    sources: ["src", ".ci/vite.cli.config.ts", ".ci/paths.mjs", "package.json", "package-lock.json"],
    leaveOut: "src/ui",
  },
  library: {
    config: ".ci/vite.library.config.ts",
    made: "dist/library/types/library/index.d.ts",
    sources: ["src", ".ci/vite.library.config.ts", ".ci/declarations.mjs", "tsconfig.json", "package.json"],
    leaveOut: "src/ui",
    then: writeDeclarations,
  },
};

/**
 * Builds what is missing or older than its sources.
 *
 * @param {readonly ("app" | "cli" | "library")[]} names what to build
 * @param {{ force?: boolean, quiet?: boolean }} [options] force: build in any case; quiet: show output only when it fails
 * @returns {boolean} whether everything is built now
 */
export function ensureBuilt(names, { force = false, quiet = false } = {}) {
  for (const name of names) {
    const build = builds[name];
    const stamp = join(cacheFolder, `built-${name}`);
    const fingerprint = fingerprintOf(build);
    const isFresh = existsSync(join(root, build.made)) && readText(stamp) === fingerprint;
    if (isFresh && !force) continue;
    if (!runVite(build.config, quiet) || build.then?.() === false) return false;
    mkdirSync(cacheFolder, { recursive: true });
    writeFileSync(stamp, fingerprint);
  }
  return true;
}

function runVite(config, quiet) {
  const vite = join(root, "node_modules", "vite", "bin", "vite.js");
  const args = [vite, "build", "-c", join(root, config), "--logLevel", quiet ? "warn" : "info"];
  const run = spawnSync(process.execPath, args, { cwd: root, stdio: quiet ? "pipe" : "inherit", encoding: "utf8" });
  if (run.status === 0) return true;
  if (quiet) process.stderr.write(`${run.stdout}${run.stderr}`);
  console.error(`Build failed: ${config}`);
  return false;
}

// Path, size and time of every source: a file that is moved, restored or deleted shows as well as one that is edited.
function fingerprintOf({ sources, leaveOut }) {
  const hash = createHash("sha256");
  for (const source of sources) addToFingerprint(hash, source, leaveOut);
  return hash.digest("hex");
}

function addToFingerprint(hash, path, leaveOut) {
  if (path === leaveOut) return;
  const facts = statSync(join(root, path), { throwIfNoEntry: false });
  if (facts?.isDirectory()) {
    for (const name of readdirSync(join(root, path)).sort()) addToFingerprint(hash, `${path}/${name}`, leaveOut);
  } else {
    hash.update(`${path} ${facts?.size} ${facts?.mtimeMs}\n`);
  }
}

function readText(path) {
  try {
    return readFileSync(path, "utf8");
  } catch {
    return undefined;
  }
}
