import { describe, expect, test } from "vitest";
import { baseDocument, fitted } from "./support.ts";

/** Names of all methods of an object, its own and inherited. */
function methodNames(of: object): readonly string[] {
  const names = new Set<string>();
  for (let at: object = of; at !== Object.prototype; at = Object.getPrototypeOf(at) as object) {
    for (const name of Object.getOwnPropertyNames(at)) if (typeof Reflect.get(of, name) === "function") names.add(name);
  }
  return [...names];
}

// What graphology calls a method that changes a graph starts with one of these words; its event listeners are not the graph.
const CHANGING = /^(add|merge|update|drop|clear|import|set|remove|replace)(?!.*Listener)/;

describe("makeFrozenGraph()", () => {
  const harness = fitted(baseDocument(), "cold");
  const { graph } = harness;
  const before = JSON.stringify(graph.export());
  const changing = methodNames(graph).filter((name) => CHANGING.test(name) && name !== "setMaxListeners");

  test("has the methods this test thinks it has", () => {
    expect(changing.length).toBeGreaterThanOrEqual(70);
    expect(changing).toEqual(
      expect.arrayContaining(["addNode", "dropEdge", "import", "setUndirectedEdgeAttribute", "setOppositeAttribute"]),
    );
  });

  test.each(changing)("refuses %s() and stays the same", (name) => {
    const method = Reflect.get(graph, name) as (...values: unknown[]) => unknown;
    expect(() => method.call(graph, "G1+", "G1-", "x", () => ({}))).toThrow(TypeError);
    expect(JSON.stringify(graph.export())).toBe(before);
  });

  test("cannot be given methods or fields, nor lose its refusals", () => {
    expect(Object.isFrozen(graph)).toBe(true);
    expect(() => Object.defineProperty(graph, "addNode", { value: () => undefined })).toThrow(TypeError);
    expect(Reflect.set(graph, "order", 0)).toBe(false);
    expect(Reflect.deleteProperty(graph, "addNode")).toBe(false);
  });

  test("has attributes that cannot be changed", () => {
    for (const attributes of [graph.getNodeAttributes("G1+"), graph.getEdgeAttributes("W1")]) {
      expect(Object.isFrozen(attributes)).toBe(true);
      expect(Reflect.set(attributes, "number", 99)).toBe(false);
    }
    expect(graph.getNodeAttribute("G1+", "number")).toBe(harness.nodeNumbers.get("G1+"));
  });

  test("still gives a copy that may be changed", () => {
    const copy = graph.copy();
    copy.dropNode("G1+");
    expect(copy.hasNode("G1+")).toBe(false);
    expect(graph.hasNode("G1+")).toBe(true);
  });
});
