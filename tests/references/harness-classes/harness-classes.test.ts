import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { KBL_CLASSES } from "../../../src/import-export/kbl/kbl-facts.ts";
import { VEC_CLASSES } from "../../../src/import-export/vec/vec-classes.ts";
import { Account } from "../../../src/import-export/xml/source-facts.ts";
import { root } from "../../structure/support/project-files.ts";
import {
  must,
  NEEDS_FILES,
  publishedFile,
  publishedPath,
  readHarness,
  readTree,
} from "../../import-export/xml/support/harness-files.ts";

// Source: count-classes.py beside this file, which counts by the published schemas with the XML parser of Python; see README.md.

interface Counted {
  readonly sha256: string;
  readonly notInSchema: readonly string[];
  readonly classes: Readonly<Record<string, number>>;
}

const text = readFileSync(join(root, "tests", "references", "harness-classes", "counts.json"), "utf8");
const { files } = JSON.parse(text) as { readonly files: Readonly<Record<string, Counted>> };

describe.each(Object.entries(files))("the ledger of %s", (path, { sha256, notInSchema, classes }) => {
  const isThere = publishedPath(path) !== undefined;

  test("is compared with a count that the schema explains whole", () => {
    expect(notInSchema).toEqual([]);
    expect(Object.keys(classes).length).toBeGreaterThan(10);
  });

  test.skipIf(!isThere)(`finds what another parser finds by the schema ${NEEDS_FILES}`, () => {
    const bytes = publishedFile(path);
    expect(createHash("sha256").update(bytes).digest("hex")).toBe(sha256);
    const ledger = new Account().ledger(readTree(bytes), path, path.startsWith("kbl") ? KBL_CLASSES : VEC_CLASSES);
    expect(Object.fromEntries(ledger.rows.map((row) => [row.class, row.found]))).toEqual(classes);
  });

  test.skipIf(!isThere)(
    `counts every element once, kept or left out, where the file can be read ${NEEDS_FILES}`,
    () => {
      const result = readHarness(publishedFile(path));
      // Files without a harness end in problems; those that have one have a ledger.
      if (!result.ok) {
        expect(result.error.length).toBeGreaterThan(0);
        return;
      }
      const [ledger] = must(result.value.ledgers);
      for (const row of must(ledger).rows) {
        const sum = [...row.kept, ...row.leftOut].reduce((total, { count }) => total + count, 0);
        expect([row.class, sum, row.found]).toEqual([row.class, classes[row.class], classes[row.class]]);
      }
      expect(
        must(ledger)
          .rows.map((row) => row.class)
          .toSorted(),
      ).toEqual(Object.keys(classes).toSorted());
    },
  );
});
