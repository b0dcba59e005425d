import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { root } from "../../structure/support/project-files.ts";
import { countResults, runMutations } from "../support/mutate-table.ts";

test(
  "2,000 changed tables: none is wrong without a word, and the document tells how they came in",
  { timeout: 600_000 },
  () => {
    const results = runMutations(2000, 2026);
    expect(results.filter(({ verdict }) => verdict === "wrong")).toEqual([]);
    const text = readFileSync(join(root, "docs/formats/pin-tables.md"), "utf8");
    for (const row of countResults(results)) {
      const cells = row.map((cell) => String(cell).replace(/\B(?=(?:\d{3})+$)/u, ","));
      expect(text).toMatch(new RegExp(`\\| ${cells.join(" +\\| +")} +\\|`, "u"));
    }
  },
);
