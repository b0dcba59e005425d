import { describe, expect, it } from "vitest";
import { resolve, resolveItem } from "ohmward/connectivity";
import { demo, item } from "./ask-demo.ts";

const harness = demo();

describe("resolve", () => {
  it.each([
    ["A1.X1:36", "contact", "A1.X1:36", ["A1.X1.harness:36", "A1.X1.device:36"]],
    ["A1.X1.device:36", "contact", "A1.X1.device:36", ["A1.X1.device:36"]],
    ["XC1m:3", "contact", "XC1m:3", ["XC1m:3"]],
    ["XC1:3", "contact", "XC1:3", ["XC1m:3", "XC1c:3"]],
    ["SP11", "splice", "SP11", ["SP11"]],
    ["G2+", "stud", "G2+", ["G2+"]],
    ["W89", "wire", "W89", ["A1.X1.harness:36", "B3.X.harness:3"]],
    ["A3.F3", "element", "A3.F3", undefined],
    ["B3", "component", "B3", ["B3.X.device:1", "B3.X.device:2", "B3.X.device:3"]],
    ["RAIL-P", "net", "RAIL-P", ["A1.X1.harness:36", "B3.X.harness:3"]],
  ])("takes the address %s", (text, type, id, keys) => {
    const found = item(harness, text);
    expect({ type: found.type, id: found.id }).toEqual({ type, id });
    if (keys) expect(new Set(found.groups.flat().map((node) => harness.nodes[node]?.key))).toEqual(new Set(keys));
  });

  it("takes small letters and blanks around", () => {
    expect(item(harness, " a1.x1:36 ").id).toBe("A1.X1:36");
    expect(item(harness, "xc1M:3").id).toBe("XC1m:3");
    expect(item(harness, "w89").id).toBe("W89");
  });

  it("takes a text that is exactly one label", () => {
    expect(item(harness, "battery positive post").id).toBe("G2+");
  });

  it("says in which builds a thing is fitted", () => {
    expect(resolve(harness, "W25")).toMatchObject({
      kind: "not-fitted",
      build: "base",
      fittedIn: ["tiller", "cold-tiller"],
    });
    expect(resolve(harness, "Y9")).toMatchObject({ kind: "not-fitted", fittedIn: ["tiller", "cold-tiller"] });
    expect(resolve(demo("tiller"), "W24")).toMatchObject({ kind: "not-fitted", fittedIn: ["base", "cold"] });
    expect(resolve(harness, "K11.X:1")).toMatchObject({ kind: "not-fitted", fittedIn: ["cold", "cold-tiller"] });
  });

  it("says so of a half that another half replaces", () => {
    expect(resolve(demo("tiller"), "XT1j")).toMatchObject({ kind: "not-fitted", fittedIn: ["base", "cold"] });
    expect(resolve(demo("tiller"), "xt1j:1")).toMatchObject({
      kind: "not-fitted",
      item: { id: "XT1j:1" },
      fittedIn: ["base", "cold"],
    });
  });

  it("says that a cavity is empty", () => {
    expect(resolve(harness, "A1.X1:64")).toEqual({ kind: "empty", item: { type: "contact", id: "A1.X1:64" } });
  });

  it("suggests for a name it does not know", () => {
    const answer = resolve(harness, "W898");
    expect(answer.kind).toBe("unknown");
    expect(answer.kind === "unknown" && answer.suggestions.map((item) => item.id)).toContain("W89");
    expect(resolve(harness, "zzzzzzzz")).toEqual({ kind: "unknown", text: "zzzzzzzz", suggestions: [] });
    expect(resolve(harness, "A1.X1:999").kind).toBe("unknown");
    expect(resolve(harness, "").kind).toBe("unknown");
  });

  it("asks where a label names several things", () => {
    const answer = resolve(harness, "rail pressure sensor");
    expect(
      answer.kind === "one" ? [answer.item.id] : answer.kind === "several" ? answer.items.map((item) => item.id) : [],
    ).toContain("B3.X");
  });

  it("gives every item of the harness back under its own id", () => {
    for (const edge of harness.edges) {
      const id = edge.kind === "element" ? `${edge.component.id}.${edge.element.id}` : edge.key;
      expect(resolve(harness, id)).toMatchObject({ kind: "one", item: { id } });
    }
    for (const node of harness.nodes)
      expect(resolveItem(harness, { type: node.kind, id: node.key })?.groups.flat()).toHaveLength(1);
  });

  it("takes no name from the prototype of objects", () => {
    for (const text of ["__proto__", "constructor", "toString", "hasOwnProperty"])
      expect(resolve(harness, text).kind).toBe("unknown");
  });
});
