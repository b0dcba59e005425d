// Writes the declarations of the door for programs into dist/library/types.
import { spawnSync } from "node:child_process";
import { readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { root } from "./paths.mjs";

const folder = join(root, "dist", "library", "types");

/**
 * Runs the compiler and makes its declarations fit for other programs.
 *
 * @returns {boolean} whether they are written
 */
export function writeDeclarations() {
  rmSync(folder, { recursive: true, force: true });
  const tsc = join(root, "node_modules", "typescript", "bin", "tsc");
  const project = join(root, "src", "library", "tsconfig.json");
  if (spawnSync(process.execPath, [tsc, "-p", project], { cwd: root, stdio: "inherit" }).status !== 0) return false;
  for (const name of readdirSync(folder, { recursive: true })) {
    if (!name.endsWith(".d.ts")) continue;
    const path = join(folder, name);
    writeFileSync(path, forPrograms(readFileSync(path, "utf8")));
  }
  return true;
}

/** Source files name one another by `.ts`. Examples of inner rooms import what programs cannot; theirs are in docs/using/programming.md. */
function forPrograms(text) {
  return text
    .replace(/(\bfrom |\bimport\()"(\.[^"]*)\.ts"/gu, '$1"$2.js"')
    .replace(/^[ \t]*\* @example[^\n]*\n(?:[ \t]*\*(?!\/| @)[^\n]*\n)*/gmu, "");
}
