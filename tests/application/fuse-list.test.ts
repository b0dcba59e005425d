import { describe, expect, test } from "vitest";
import { fuseList } from "ohmward/application";
import { findOpenEffect, resolveItem } from "ohmward/connectivity";
import { fitBuild } from "ohmward/harness-model";
import { openDemo } from "../demo-harness/open-demo.ts";

describe("fuseList()", () => {
  const harness = fitBuild(openDemo(), "base");
  const box = harness?.fitted.components.get("A3");
  if (!harness || !box) throw new Error("The demo has no box");
  const rows = fuseList(harness, box);

  test("lists every fuse and relay of a box in the order of their numbers", () => {
    const fuses = Array.from({ length: 11 }, (_, at) => `A3.F${at + 1}`);
    expect(rows.map(({ id }) => id)).toEqual([...fuses, ...[1, 2, 3, 4].map((at) => `A3.K${at}-coil`)]);
    expect(rows[9]).toMatchObject({ what: "fuse", rating: "15 A", feeds: [{ id: "M2", label: "Fuel lift pump" }] });
    expect(rows.find(({ id }) => id === "A3.F2")?.feeds.map(({ id }) => id)).toEqual(["A3.K2-coil"]);
  });

  // The other road to the same: the effect of an open circuit looks for what still reaches the battery, not for what lies on a circuit.
  test("feeds every part that stops at once when the fuse is out", () => {
    for (const { id, what, feeds } of rows) {
      const item = resolveItem(harness, { type: "element", id });
      if (what !== "fuse" || !item) continue;
      const stopped = findOpenEffect(harness, item).stopped.flatMap(({ component, lost, because }) =>
        because === undefined && lost.includes("supply") && component !== undefined && component !== "A3"
          ? [component]
          : [],
      );
      expect(feeds.map((each) => each.id)).toEqual(expect.arrayContaining([...new Set(stopped)]));
    }
  });
});
