import { describe, expect, test } from "vitest";
import { recallMapping, rememberMapping, type TableMapping } from "ohmward/import-export";

describe("the memory of mappings", () => {
  const mapping: TableMapping = {
    shape: "wire",
    columns: [
      { column: 0, field: "from" },
      { column: 2, field: "to" },
    ],
  };

  test("keeps one mapping a set of headings, the newest", () => {
    const first = rememberMapping([], ["Von", "x", "Nach"], { ...mapping, shape: "pin" });
    const second = rememberMapping(first, ["von ", "X", "nach"], mapping);
    expect(second).toHaveLength(1);
    expect(recallMapping(second, ["Von", "x", "Nach"])).toEqual(mapping);
    expect(first).toHaveLength(1);
  });

  test("outlives being stored as JSON, and forgets the oldest of many", () => {
    let memory = rememberMapping([], ["first"], mapping);
    for (let at = 0; at < 250; at++) memory = rememberMapping(memory, [`heading ${at}`], mapping);
    expect(memory).toHaveLength(200);
    expect(recallMapping(memory, ["first"])).toBeUndefined();
    const stored = JSON.parse(JSON.stringify(memory)) as typeof memory;
    expect(recallMapping(stored, ["heading 249"])).toEqual(mapping);
  });
});
