// npm run generate: writes data-schemas/ anew from what the rooms say it holds (see src/base/generated-file.ts).
import { mkdirSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { GeneratedFile } from "../src/base/index.ts";

interface Room {
  readonly generatedFiles?: () => readonly GeneratedFile[];
}

// Run by run-ts.mjs, which sets the working directory to the top folder.
const folder = join(process.cwd(), "data-schemas");
const rooms = import.meta.glob<Room>(["../src/*/index.ts", "!../src/ui/**", "!../src/cli/**"], { eager: true });

const files = new Map<string, string>();
for (const [path, room] of Object.entries(rooms)) {
  for (const { fileName, text } of room.generatedFiles?.() ?? []) {
    if (!/^[a-z0-9.-]+$/u.test(fileName) || files.has(fileName) || !text.endsWith("\n")) {
      throw new Error(
        `Cannot write "${fileName}" of ${path}: the name is wrong or taken, or the text has no last line end`,
      );
    }
    files.set(fileName, text);
  }
}
if (files.size === 0) throw new Error("Cannot write data-schemas: no room exports generatedFiles()");

mkdirSync(folder, { recursive: true });
for (const name of readdirSync(folder)) {
  // A file that no room speaks of any more goes; the note for readers stays.
  if (name !== "README.md" && !files.has(name)) rmSync(join(folder, name));
}
for (const [name, text] of files) writeFileSync(join(folder, name), text);
console.log(`data-schemas: ${files.size} files written`);
