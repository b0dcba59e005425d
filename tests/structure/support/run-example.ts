import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { root } from "./project-files.ts";

// One folder a run, so that two runs at the same time do not meet.
const folder = join(root, "node_modules", ".cache", "doc-examples", String(process.pid));

/** Runs the code of an example as a module of its own; what it throws is thrown. `expect` must be a global by then. */
export async function runExample(name: string, code: string): Promise<void> {
  mkdirSync(folder, { recursive: true });
  const file = join(folder, `${name.replace(/[^\w-]+/gu, "_")}.ts`);
  writeFileSync(file, `${code}\nexport {};\n`);
  await import(/* @vite-ignore */ file);
}

/** Throws the written examples away. */
export function removeExamples(): void {
  rmSync(folder, { recursive: true, force: true });
}
