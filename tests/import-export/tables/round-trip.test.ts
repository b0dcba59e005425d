import { readdirSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { harnessJsonBytes, writeTableCsv, writeTableXlsx } from "ohmward/import-export";
import type { HarnessDocument } from "ohmward/harness-model";
import { root } from "../../structure/support/project-files.ts";
import { readGood } from "../support/read-file.ts";
import { importShape } from "../support/shape-facts.ts";

/** What a plain table can hold of a document: each wire with its ends and facts, and each pin. */
function factsOf({ wires, connectors, splices, terminalStuds }: HarnessDocument): unknown {
  const legs = new Set<string>(splices.map(({ id }) => id));
  return {
    wires: wires
      .map(({ id, ends, colour, crossSectionMm2, lengthMm, net, note }) => {
        const points = ends.filter((end) => end !== undefined).map((end) => (legs.has(end) ? "splice" : end));
        return JSON.stringify({ id, points: points.sort(), colour, crossSectionMm2, lengthMm, net, note });
      })
      .sort(),
    pins: connectors.flatMap(({ id, cavities }) => cavities.map((cavity) => `${id}:${cavity.id}`)).sort(),
    studs: terminalStuds.map(({ id, role }) => `${id} ${role}`).sort(),
    splices: splices.length,
  };
}

describe.each(["table-shapes", "more-tables"])("what came in from %s goes out and comes back the same", (folder) => {
  const path = join("tests/fixtures", folder);
  const tables = readdirSync(join(root, path)).filter((name) => !name.endsWith(".expected.json"));
  test.each(tables)("%s", (name) => {
    const { document } = importShape(join(path, name), ["size-unit", "colour-codes", "ground-studs"]);
    const wanted = factsOf(document);
    expect(readGood(harnessJsonBytes(document), "back.ohm.json").document).toEqual(document);
    const pins = writeTableCsv(document, { shape: "pin" }).content;
    expect(factsOf(readGood(pins, "back.csv").document)).toEqual(wanted);
    const book = writeTableXlsx(document, { shape: "pin" }).content;
    expect(factsOf(readGood(book, "back.xlsx").document)).toEqual(wanted);
  });
});
