// Notices of the packages that are in the built screen, taken from the packages themselves.
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { root } from "./paths.mjs";

const packages = [
  "svelte",
  "cytoscape",
  "idb",
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
  const { version, license, author } = JSON.parse(readFileSync(join(folder, "package.json"), "utf8"));
  const file = readdirSync(folder).find((each) => /^licen[cs]e(?:\.(?:md|txt))?$/iu.test(each));
  if (file) return `${name} ${version} (${license})\n\n${readFileSync(join(folder, file), "utf8").trim()}\n`;
  // A package that keeps its licence in the package that it is part of, or in its readme.
  const readme = existsSync(join(folder, "README.md")) ? readFileSync(join(folder, "README.md"), "utf8") : "";
  const at = readme.search(/^#+ licen[cs]e/imu);
  const text = at < 0 ? standardText(name, license, author) : readme.slice(at).trim();
  return `${name} ${version} (${license})\n\n${text}\n`;
}

/** Wording of the ISC licence as the SPDX list gives it, for a package that only names it; no other licence may go without its text. */
function standardText(name, license, author) {
  if (license !== "ISC" || typeof author !== "string") throw new Error(`The package "${name}" holds no licence text`);
  return `Copyright (c) ${author}

Permission to use, copy, modify, and/or distribute this software for any purpose with or without fee is hereby granted, provided that the above
copyright notice and this permission notice appear in all copies.

THE SOFTWARE IS PROVIDED "AS IS" AND THE AUTHOR DISCLAIMS ALL WARRANTIES WITH REGARD TO THIS SOFTWARE INCLUDING ALL IMPLIED WARRANTIES OF
MERCHANTABILITY AND FITNESS. IN NO EVENT SHALL THE AUTHOR BE LIABLE FOR ANY SPECIAL, DIRECT, INDIRECT, OR CONSEQUENTIAL DAMAGES OR ANY DAMAGES
WHATSOEVER RESULTING FROM LOSS OF USE, DATA OR PROFITS, WHETHER IN AN ACTION OF CONTRACT, NEGLIGENCE OR OTHER TORTIOUS ACTION, ARISING OUT OF OR IN
CONNECTION WITH THE USE OR PERFORMANCE OF THIS SOFTWARE.`;
}
