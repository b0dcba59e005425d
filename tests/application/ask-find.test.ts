import { describe, expect, test } from "vitest";
import { askDemo } from "./demo-machine.ts";

const hits = (text: string, build = "base"): readonly string[] =>
  askDemo("find", { kind: "find", text }, { build }).hits.map((hit) => hit.id);

describe("askFind() on the demo machine", () => {
  test.each([
    ["rail sensor", "B3"],
    ["sensor rail", "B3"],
    ["w89", "W89"],
    ["0,5 wh/rd", "W89"],
    ["FE111", "FE111"],
    ["spn 520301", "FE111"],
    ["a1.x1:36", "A1.X1:36"],
  ])("finds by %s", (text, id) => {
    expect(hits(text)).toContain(id);
  });

  test("finds nothing by nothing", () => {
    expect(hits("")).toEqual([]);
    expect(hits("zzzzzz")).toEqual([]);
  });

  test("lists hits in groups, the group of the best hit first, each with its count and what can be asked of it", () => {
    const answer = askDemo("find", { kind: "find", text: "rail" });
    expect(answer.groups.map(({ group }) => group)).toEqual(["part", "code", "wire", "connector", "pin"]);
    expect(askDemo("find", { kind: "find", text: "wh/rd" }).groups[0]?.group).toBe("wire");
    for (const { group, count } of answer.groups)
      expect(answer.hits.filter((hit) => hit.group === group)).toHaveLength(Math.min(count, 3));
    expect(answer.hits[0]?.actions).toContain("test-points");
    expect(new Set(answer.hits.map(({ group }) => group)).size).toBe(answer.groups.length);
  });

  test("lists the whole of a group that is asked for", () => {
    const few = askDemo("find", { kind: "find", text: "injector" });
    const count = few.groups.find(({ group }) => group === "pin")?.count;
    const all = askDemo("find", { kind: "find", text: "injector", group: "pin" });
    expect(all.groups).toEqual([{ group: "pin", count }]);
    expect(all.hits).toHaveLength(count ?? -1);
  });

  test("fuses and relays are a group of their own, with the part that is nothing else", () => {
    expect(askDemo("find", { kind: "find", text: "K10" }).hits[0]).toMatchObject({ id: "K10", group: "fuse" });
    expect(askDemo("find", { kind: "find", text: "fuse 7" }).hits[0]).toMatchObject({ id: "A3.F7", group: "fuse" });
  });

  test("tells the nearest where nothing fits all words", () => {
    const answer = askDemo("find", { kind: "find", text: "rail zebra" });
    expect(answer.hits).toEqual([]);
    expect(answer.nearest.map(({ id }) => id)).toContain("B3");
    expect(answer.nearest).toHaveLength(3);
  });

  test("says in which builds something fits where nothing does here", () => {
    const answer = askDemo("find", { kind: "find", text: "Y9" });
    expect(answer.hits).toEqual([]);
    expect(answer.foundIn).toEqual(["tiller", "cold-tiller"]);
    expect(askDemo("find", { kind: "find", text: "B3" }).foundIn).toEqual([]);
  });
});
