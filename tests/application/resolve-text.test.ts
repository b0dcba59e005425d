import { describe, expect, test } from "vitest";
import type { Question } from "ohmward/application";
import { askChecked, askDemo, demo } from "./demo-machine.ts";

const trace = (point: string): Question => ({ kind: "circuit", point });

describe("names in questions", () => {
  test.each([
    ["a1.x1:36", "A1.X1:36"],
    ["  SP11 ", "SP11"],
    ["xc1M:3", "XC1m:3"],
    ["fe111", "FE111"],
    ["5v-a", "5V-A"],
  ])("%j is read as %s", (typed, id) => {
    expect(askDemo("circuit", trace(typed)).of.id).toBe(id);
  });

  test("words that fit several things ask which", () => {
    const answer = askDemo("ambiguous", trace("key switch"));
    expect(answer.items.map((item) => item.id)).toEqual(["S1", "S1.X"]);
    expect(answer.text).toMatch(/several items/u);
  });

  test("a typing slip suggests what may have been meant", () => {
    expect(askDemo("unknown", trace("SP1l")).items.map((item) => item.id)).toContain("SP11");
    expect(askDemo("unknown", trace("rail sensr")).items.map((item) => item.id)).toContain("B3");
  });

  test("a name like nothing here suggests nothing, an empty one asks for a name", () => {
    expect(askDemo("unknown", trace("qqqqqq"))).toMatchObject({ items: [], text: 'Nothing has the name "qqqqqq".' });
    expect(askDemo("unknown", trace("  ")).text).toMatch(/Nothing was named/u);
  });

  test("a cavity that a connector does not have is told with those it has", () => {
    const answer = askDemo("unknown", trace("a1.x1:99"));
    expect(answer.text).toBe('Connector A1.X1 has no cavity "99". Its cavities: 64 of them, 1 to 64.');
    expect(askDemo("unknown", trace("XC1m:q")).text).toMatch(/^Connector XC1 has no cavity "q"/u);
    expect(askDemo("unknown", trace("B3.X:9")).text).toMatch(/Its cavities: 1, 2, 3\./u);
  });

  test.each([
    ["Y9", "component"],
    ["W68", "wire"],
    ["S4.contact", "element"],
    ["FC541", "code"],
  ])("%s is not fitted in the base build, and the builds that have it are named", (id, type) => {
    const answer = askDemo("not-fitted", trace(id));
    expect(answer.fittedIn).toEqual(["tiller", "cold-tiller"]);
    expect(answer.items[0]).toMatchObject({ type, id });
    expect(answer.items[0]?.label).not.toBe(id);
    expect(answer.text).toBe(`${id} is not fitted in build base. It is in: tiller, cold-tiller.`);
  });

  test("a cavity without a wire is never called empty, as the data may not know of one", () => {
    expect(askDemo("empty", trace("A1.X1:3"))).toMatchObject({ fittedIn: [], items: [{ id: "A1.X1:3" }] });
    const answer = askDemo("empty", trace("xt1:5"), { build: "tiller" });
    expect(answer.text).toMatch(/^No wire in the data ends at XT1:5 in build tiller/u);
  });

  test.each([
    ["XT1t:3", "base", ["tiller", "cold-tiller"]],
    ["xt1j:1", "tiller", ["base", "cold"]],
    ["XT1j", "tiller", ["base", "cold"]],
  ])("half %s is not fitted in build %s, where another half sits in its place", (id, build, fittedIn) => {
    expect(askDemo("not-fitted", trace(id), { build }).fittedIn).toEqual(fittedIn);
    expect(askDemo("circuit", trace(id), { build: fittedIn[0] ?? "" }).kind).toBe("circuit");
  });

  test.each([
    { kind: "path", from: "B3", to: "nonsense" },
    { kind: "path", from: "nonsense", to: "B3" },
    { kind: "effect", item: "nonsense" },
    { kind: "test-points", item: "nonsense" },
    { kind: "common", items: [{ text: "nonsense", mark: "bad" }] },
  ] satisfies readonly Question[])("every question says of an unknown name that it is unknown: %j", (question) => {
    expect(askChecked(demo, { build: "base" }, question)).toMatchObject({ kind: "unknown", asked: "nonsense" });
  });

  test("hostile names end in an answer", () => {
    for (const typed of [
      "__proto__",
      "constructor",
      ":",
      "::",
      "A1.X1:",
      ":36",
      "(".repeat(5000),
      "\u0000",
      "a".repeat(100_000),
    ]) {
      expect(askChecked(demo, { build: "base" }, trace(typed)).kind).toBe("unknown");
    }
  });
});
