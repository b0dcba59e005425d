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

  test("says in which builds something fits where nothing does here", () => {
    const answer = askDemo("find", { kind: "find", text: "Y9" });
    expect(answer.hits).toEqual([]);
    expect(answer.foundIn).toEqual(["tiller", "cold-tiller"]);
    expect(askDemo("find", { kind: "find", text: "B3" }).foundIn).toEqual([]);
  });
});
