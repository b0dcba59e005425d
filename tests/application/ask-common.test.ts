import { describe, expect, test } from "vitest";
import { askDemo } from "./demo-machine.ts";

type Marks = Readonly<Partial<Record<"bad" | "good" | "unknown", readonly string[]>>>;

function shared(marks: Marks): ReturnType<typeof askDemo<"common">> {
  const items = (["bad", "good", "unknown"] as const).flatMap((mark) =>
    (marks[mark] ?? []).map((text) => ({ text, mark })),
  );
  return askDemo("common", { kind: "common", items });
}

const suspects = (marks: Marks): readonly string[] =>
  shared(marks).items.flatMap((item) => (item.isSuspect ? [item.id] : []));

describe("askShared() on the demo machine", () => {
  // Source: the worked faults X04 and X05 of demo-harness/expected.json: return W78 open, supply W74 shorted.
  test("four signals high together point to the shared return", () => {
    const found = suspects({ bad: ["FE111", "FE121", "FE151", "FE141"] });
    expect(found.slice(0, 3)).toEqual(["SP13", "A1.X1:17", "W78"]);
    expect(found).not.toContain("SP11");
  });

  test("three signals low with the fourth good point to the shared supply", () => {
    const found = suspects({ bad: ["FE112", "FE122", "FE152"], good: ["B5"] });
    expect(found.slice(0, 3)).toEqual(["SP11", "A1.X1:1", "W71"]);
    expect(found).not.toContain("SP13");
    expect(found).not.toContain("A1.X1");
  });

  // What a shared pass-through means for two cylinders: common practice, no source.
  test.each([
    [["Y1", "Y2"], ["Y3", "Y4"], "XP1"],
    [["Y3", "Y4"], ["Y1", "Y2"], "XP2"],
  ])("injectors %j without %j point to their head connector %s", (bad, good, connector) => {
    expect(suspects({ bad, good })[0]).toBe(connector);
  });

  test("counts marks, circuits and how much of the machine passes a thing", () => {
    const answer = shared({ bad: ["B3", "B4"], good: ["B5"], unknown: ["B6"] });
    const item = answer.items.find((each) => each.id === "SP13");
    expect(item).toMatchObject({ circuits: ["B3", "B4", "B5", "B6"], bad: 2, good: 1, isSuspect: false });
    expect(answer.asked).toContainEqual({ type: "component", id: "B4", mark: "bad", circuitCount: 2 });
    expect(answer.items.find((each) => each.id === "SP11")?.circuitsInAll).toBe(3);
  });

  test("lists nothing where nothing is shared, and where only one thing is asked", () => {
    expect(shared({ bad: ["B7", "Y9"].slice(0, 1) }).items).toEqual([]);
    expect(shared({ bad: ["B7", "Y1"] }).items).toEqual([]);
  });

  test("asks about the first name that fits nothing", () => {
    const items = [
      { text: "B3", mark: "bad" as const },
      { text: "nonsense", mark: "good" as const },
    ];
    expect(askDemo("unknown", { kind: "common", items }).asked).toBe("nonsense");
  });
});
