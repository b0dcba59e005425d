import { describe, expect, it } from "vitest";
import { findCommon, type Mark } from "ohmward/connectivity";
import { demo, ids, item } from "./ask-demo.ts";

const harness = demo();
const marked = (texts: readonly string[], mark: Mark = "bad") =>
  texts.map((text) => ({ item: item(harness, text), mark }));

describe("findCommon", () => {
  it("puts the shared return first when rail, boost, oil and coolant fail together", () => {
    const answer = findCommon(harness, [
      ...marked(["A1.X1:36", "A1.X1:37", "A1.X1:39", "A1.X1:40"]),
      ...marked(["A1.X1:35", "A1.X1:41"], "good"),
    ]);
    const suspects = answer.items.filter((item) => item.isSuspect);
    expect(ids(suspects)).toEqual(["SP13", "A1.X1:17", "W78"]);
    expect(ids(answer.items.slice(0, 3))).toEqual(ids(suspects));
  });

  it("puts the shared 5 V first when coolant is normal", () => {
    const answer = findCommon(harness, [
      ...marked(["A1.X1:36", "A1.X1:37", "A1.X1:40"]),
      ...marked(["A1.X1:39"], "good"),
    ]);
    expect(ids(answer.items.filter((item) => item.isSuspect))).toEqual(["SP11", "A1.X1:1", "W71", "SG04"]);
  });

  // Common practice, no source: injectors in pairs share one connector through the head.
  it.each([
    ["Y1", "Y2", "XP1", "XP2"],
    ["Y3", "Y4", "XP2", "XP1"],
  ])("finds the pass-through connector that %s and %s share", (one, other, shared, apart) => {
    const connectors = findCommon(harness, marked([one, other]))
      .items.filter((item) => item.type === "connector")
      .map((item) => item.id);
    expect(connectors).toContain(shared);
    expect(connectors).not.toContain(apart);
  });

  it("names the circuits that share each thing, and nothing that only one passes", () => {
    const answer = findCommon(harness, marked(["B3", "B5", "Y7"]));
    for (const item of answer.items) expect(item.circuits.length).toBeGreaterThanOrEqual(2);
    expect(answer.items.find((item) => item.id === "SP13")?.circuits).toEqual(["B3", "B5"]);
    expect(ids(answer.items)).not.toContain("W89");
  });

  it("says that nothing is shared", () => {
    expect(findCommon(harness, marked(["B7", "Y7"])).items).toEqual([]);
    expect(findCommon(harness, marked(["B3"])).items).toEqual([]);
    expect(findCommon(harness, []).items).toEqual([]);
  });

  it("does not depend on the order of the question", () => {
    const there = findCommon(harness, marked(["B3", "B4", "B5"])).items.map((item) => item.id);
    const back = findCommon(harness, marked(["B5", "B4", "B3"])).items.map((item) => item.id);
    expect(back).toEqual(there);
  });
});
