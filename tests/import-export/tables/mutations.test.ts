import { expect, test } from "vitest";
import { runMutations } from "../support/mutate-table.ts";

test(
  "a changed table is read right, asked about or listed, and never wrong without a word",
  { timeout: 60_000 },
  () => {
    const results = runMutations(60, 7);
    expect(results).toHaveLength(60);
    expect(results.filter(({ verdict }) => verdict === "wrong")).toEqual([]);
  },
);
