import { MultiUndirectedGraph } from "graphology";
import { bfsFromNode } from "graphology-traversal";
import { harnessGraph, type HarnessGraph } from "ohmward/harness-model";
import { describe, expect, expectTypeOf, test } from "vitest";
import { baseDocument, fitted } from "./support.ts";

// What graphology calls a method that changes a graph starts with one of these words; its event listeners are not the graph.
const CHANGING = /^(?:add|merge|update|drop|clear|import|set|remove|replace)/u;

const READING =
  /^(?:constructor$|[A-Z_]|has|get|are|is|in|out|directed|undirected|degree|edge|node|neighbor|source|target|extremities|opposite|forEach|find|map|some|every|filter|reduce|export|nullCopy|emptyCopy|copy|to|order|size|type|multi|allowSelfLoops|selfLoopCount|domain$|implementation$)/u;

/** Every method of a graph of graphology. */
const METHODS = Object.getOwnPropertyNames(new MultiUndirectedGraph()).concat(
  ...[MultiUndirectedGraph.prototype as object, Object.getPrototypeOf(MultiUndirectedGraph.prototype) as object].map(
    (each) => Object.getOwnPropertyNames(each),
  ),
);

// That its nodes and edges are those of the harness is checked in fit-build.test.ts.
describe("harnessGraph()", () => {
  const harness = fitted(baseDocument(), "cold");

  test("is made once for a harness, and apart for another", () => {
    expect(harnessGraph(harness)).toBe(harnessGraph(harness));
    expect(harnessGraph(fitted(baseDocument(), "cold"))).not.toBe(harnessGraph(harness));
  });

  test("shows no method that changes it, and all that read it", () => {
    expect(METHODS.filter((name) => CHANGING.test(name)).length).toBeGreaterThanOrEqual(70);
    // Of the methods that are left, each starts with a word that only reads or listens.
    expect(METHODS.filter((name) => !CHANGING.test(name) && !READING.test(name))).toEqual([]);
    type Shown = keyof HarnessGraph;
    expectTypeOf<
      Extract<Shown, "addNode" | "dropEdge" | "import" | "clear" | "updateEachNodeAttributes">
    >().toBeNever();
    expectTypeOf<
      Extract<Shown, "setNodeAttribute" | "mergeEdge" | "removeAttribute" | "replaceAttributes">
    >().toBeNever();
    expectTypeOf<"neighbors" | "forEachNode" | "mapEdges" | "copy" | "export">().toExtend<Shown>();
  });

  test("gives a copy that may be changed and that algorithms of the library take", () => {
    const graph = harnessGraph(harness);
    const copy = graph.copy();
    const reached = new Set<string>();
    bfsFromNode(copy, "G1+", (node) => void reached.add(node));
    expect(reached.size).toBeGreaterThan(1);
    copy.dropNode("G1+");
    expect([copy.hasNode("G1+"), graph.hasNode("G1+")]).toEqual([false, true]);
  });
});
