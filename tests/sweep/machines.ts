import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { runReading } from "ohmward/import-export";
import type { HarnessDocument } from "ohmward/harness-model";
import { importFile, openMachine } from "ohmward/application";
import { harnessText } from "../generate/harness-text.ts";

/** A document that the sweep begins with: as it is, or as what its mutants are made from. */
export interface SweptMachine {
  readonly name: string;
  readonly document: HarnessDocument;
}

const top = join(import.meta.dirname, "../..");

/** Numbers of generated harnesses with their wires: small, with a module of its own, with two modules and a bus. */
const GENERATED = [
  [1, 20],
  [2, 60],
  [3, 200],
] as const;

/** The root of the project, for a script whose own place is another one. */
export function sweptMachines(root = top): readonly SweptMachine[] {
  const shapes = join(root, "tests/fixtures/table-shapes");
  return [
    written(join(root, "demo-harness/firnlark-45.ohm.json"), "demo"),
    written(join(root, "tests/fixtures/base.ohm.json"), "base"),
    ...["kbl", "vec"].flatMap((ending) => imported(join(root, "demo-harness"), `firnlark-excerpt.${ending}`)),
    ...readdirSync(shapes)
      .toSorted()
      .flatMap((file) => imported(shapes, file)),
    ...GENERATED.map(([seed, wires]) => made(`generated-${seed}`, harnessText({ seed, wires }))),
  ];
}

function written(path: string, name: string): SweptMachine {
  return made(name, readFileSync(path, "utf8"));
}

function made(name: string, text: string): SweptMachine {
  const opened = openMachine(text);
  if (!opened.ok) throw new Error(`${name}: ${opened.error.map(({ message }) => message).join("; ")}`);
  return { name, document: opened.value.document };
}

/** A table whose shape cannot be read yet is left out; the test says which are read. */
function imported(folder: string, fileName: string): readonly SweptMachine[] {
  const read = runReading(importFile(readFileSync(join(folder, fileName)), { fileName }));
  return read?.ok ? [{ name: fileName, document: read.value.document }] : [];
}
