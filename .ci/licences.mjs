// Notices of the packages that are in the built screen, taken from the packages themselves.
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { root } from "./paths.mjs";

const packages = [
  "svelte",
  "cytoscape",
  "zod",
  "graphology",
  "graphology-utils",
  "events",
  "saxes",
  "xmlchars",
  "fflate",
  "papaparse",
].concat(["commander"]);

/** Name, version and licence text of each package; a package without a licence file stops the build. */
export function licenceTexts() {
  return packages.map(noticeOf).join(`\n${"-".repeat(78)}\n\n`);
}

function noticeOf(name) {
  const folder = join(root, "node_modules", name);
  if (!existsSync(folder)) throw new Error(`There is no package "${name}" to take a licence from`);
  const { version, license } = JSON.parse(readFileSync(join(folder, "package.json"), "utf8"));
  const file = readdirSync(folder).find((each) => /^licen[cs]e(?:\.(?:md|txt))?$/iu.test(each));
  if (file) return `${name} ${version} (${license})\n\n${readFileSync(join(folder, file), "utf8").trim()}\n`;
  // A package that keeps its licence in the package that it is part of, or in its readme.
  const readme = existsSync(join(folder, "README.md")) ? readFileSync(join(folder, "README.md"), "utf8") : "";
  const at = readme.search(/^#+ licen[cs]e/imu);
  return `${name} ${version} (${license})\n\n${at < 0 ? "The package holds no licence file." : readme.slice(at).trim()}\n`;
}
