// npm run release [-- --without-tests]: tries the packed project as a stranger would, and says what is left to do by hand.
// Nothing is tagged or published.
import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { delimiter, dirname, join } from "node:path";
import { root } from "./paths.mjs";

const NODES = ["20", "22", "24"];
const withoutTests = process.argv.includes("--without-tests");
const manifest = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
const tried = [];
const notTried = [];
const folder = mkdtempSync(join(tmpdir(), "ohmward-release-"));
const program = join(folder, "program");
const isWindows = process.platform === "win32";

try {
  if (withoutTests) notTried.push("npm test (--without-tests)");
  else {
    must("npm", ["test"], { cwd: root, stdio: "inherit" });
    tried.push("npm test");
  }
  const changed = must("git", ["status", "--porcelain"], { cwd: root }).trim();
  if (changed) notTried.push(`a clean clone: these files differ from the last commit:\n${changed}`);
  const tarball = pack();
  install(tarball);
  const examples = writePrograms();
  compile();
  for (const version of NODES) runOn(version, examples);
  tell(tarball);
} finally {
  rmSync(folder, { recursive: true, force: true });
}

function pack() {
  title("Build and pack");
  must("npm", ["pack", "--pack-destination", folder], { cwd: root });
  const name = readdirSync(folder).find((each) => each.endsWith(".tgz"));
  if (!name) fail("npm pack left no file");
  const path = join(folder, name);
  tried.push(`npm pack: ${name}, ${(statSync(path).size / 1e6).toFixed(1)} MB`);
  return path;
}

function install(tarball) {
  title("Install into an empty folder");
  mkdirSync(program);
  writeFileSync(join(program, "package.json"), '{ "name": "sample", "private": true, "type": "module" }\n');
  const { typescript, "@types/node": types } = manifest.devDependencies;
  npmInstall(program, [tarball]);
  const bare = readdirSync(join(program, "node_modules")).filter((name) => !name.startsWith("."));
  npmInstall(program, [`typescript@${typescript}`, `@types/node@${types}`]);
  tried.push(`install into an empty folder: ${bare.join(", ")}`);
}

/** The sample, and the examples of the page for programmers with what each prints. */
function writePrograms() {
  cpSync(join(root, ".ci", "release", "sample.ts"), join(program, "sample.ts"));
  cpSync(join(root, "demo-harness", "firnlark-45.ohm.json"), join(program, "machine.ohm.json"));
  writeFileSync(join(program, "url.d.ts"), "declare class URL {\n  readonly href: string;\n}\n");
  writeFileSync(
    join(program, "report.js"),
    'import { report } from "./out/sample.js";\nconsole.log(report.join("\\n"));\n',
  );
  const page = readFileSync(join(root, "docs", "using", "programming.md"), "utf8");
  const examples = [...page.matchAll(/^```ts\n([\s\S]*?)^```\n+```text\n([\s\S]*?)^```$/gmu)];
  if (examples.length === 0 || examples.length !== page.split("```ts\n").length - 1) {
    fail("Every example of docs/using/programming.md needs the text that it prints below it");
  }
  return examples.map(([, code, prints], index) => {
    writeFileSync(join(program, `example-${index + 1}.ts`), code);
    return { name: `example-${index + 1}`, prints };
  });
}

function compile() {
  title("Compile");
  const common = {
    ...{ strict: true, exactOptionalPropertyTypes: true, noUncheckedIndexedAccess: true, skipLibCheck: false },
    ...{ target: "es2023", lib: ["es2023"], resolveJsonModule: true, outDir: "out" },
  };
  const nodenext = { module: "nodenext", moduleResolution: "nodenext" };
  const bundler = { module: "esnext", moduleResolution: "bundler", noEmit: true };
  const examples = readdirSync(program).filter((name) => /^example-\d+\.ts$/u.test(name));
  const run = (what, options, files) => {
    writeFileSync(
      join(program, "tsconfig.json"),
      JSON.stringify({ compilerOptions: { ...common, ...options }, files }),
    );
    must(process.execPath, [join(program, "node_modules", "typescript", "bin", "tsc"), "-p", program], {
      cwd: program,
    });
    tried.push(`compile strictly, declarations of packages included: ${what}`);
  };
  // zod alone wants a name of Node and browsers: URL.
  const bare = ["sample.ts", "url.d.ts"];
  run("the sample, nodenext, without types of Node or a browser", { ...nodenext, types: [] }, bare);
  run("the sample, bundler, without types of Node or a browser", { ...bundler, types: [] }, bare);
  run(`${examples.length} examples of the page for programmers`, { ...nodenext, types: ["node"] }, examples);
}

function runOn(version, examples) {
  title(`Node ${version}`);
  const node = nodeOf(version);
  const env = { ...process.env };
  // The installed command finds its Node by the search path, as it does for a person.
  env.PATH = [dirname(node), join(program, "node_modules", ".bin"), env.PATH].join(delimiter);
  const at = { cwd: program, env };
  const exact = must(node, ["--version"], at).trim();
  const lines = must(node, ["report.js"], at).trim().split("\n");
  for (const { name, prints } of examples) {
    const printed = must(node, [join("out", `${name}.js`)], at);
    if (printed !== prints) fail(`${name} prints\n${printed}and the page says\n${prints}`);
  }
  const said = must("ohmward", ["--version"], at).trim();
  if (said !== manifest.version) fail(`ohmward --version says ${said}, package.json ${manifest.version}`);
  const answer = JSON.parse(must("ohmward", ["find", "demo", "rail pressure", "--build", "base", "--json"], at));
  if (answer.kind !== "find" || answer.hits.length === 0) fail("ohmward find demo finds nothing");
  must("ohmward", ["validate", "machine.ohm.json"], at);
  tried.push(
    `Node ${exact}: the sample (${lines.length} answers), ${examples.length} examples, ohmward --version, find, validate`,
  );
}

/** The program of a Node version: this one, or one installed into the temporary folder. */
function nodeOf(version) {
  if (process.versions.node.startsWith(`${version}.`)) return process.execPath;
  const place = join(folder, `node-${version}`);
  mkdirSync(place);
  writeFileSync(join(place, "package.json"), '{ "name": "node", "private": true }\n');
  npmInstall(place, [`node@${version}`]);
  return join(place, "node_modules", "node", "bin", isWindows ? "node.exe" : "node");
}

function npmInstall(cwd, packages) {
  must("npm", ["install", "--no-audit", "--no-fund", "--loglevel=error", ...packages], { cwd });
}

function must(command, args, options) {
  const run = spawnSync(command, args, {
    encoding: "utf8",
    maxBuffer: 2 ** 26,
    shell: isWindows && command !== process.execPath,
    ...options,
  });
  if (run.status === 0) return run.stdout ?? "";
  fail(`${command} ${args.join(" ")}\n${run.error ?? ""}${run.stdout ?? ""}${run.stderr ?? ""}`);
}

function fail(what) {
  const before = tried.map((each) => `  ${each}`).join("\n");
  console.error(`\nFAILED: ${what}\n\nFine until then:\n${before}\n\nThe release is not ready.`);
  rmSync(folder, { recursive: true, force: true });
  process.exit(1);
}

function title(text) {
  console.log(`\n== ${text}`);
}

function tell(tarball) {
  const tag = `v${manifest.version}`;
  console.log(`\nTried, and fine:\n${tried.map((each) => `  ${each}`).join("\n")}`);
  if (notTried.length > 0) console.log(`\n*** NOT TRIED ***\n${notTried.map((each) => `  ${each}`).join("\n")}`);
  console.log(`
Nothing was tagged or published. To do that by hand:
  1. docs/changelog.md: the heading "Unreleased" becomes ${manifest.version} with the date; commit
  2. git tag -a ${tag} -m "Ohmward ${manifest.version}" && git push origin ${tag}
  3. npm publish (makes ${tarball.split(/[\\/]/u).at(-1)} again, from the tagged commit)`);
}
