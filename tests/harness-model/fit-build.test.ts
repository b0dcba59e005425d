import { describe, expect, test } from "vitest";
import { seededRandom } from "ohmward/base";
import { fitBuild, harnessGraph, type Harness } from "ohmward/harness-model";
import { generateHarness } from "../generate/generate-harness.ts";
import { at, baseDocument, edgeList, fitted, opened, type DocumentInput } from "./support.ts";

describe("fitBuild()", () => {
  test("makes the edges of the base build: wires, elements, a divider in two, one mating a used cavity", () => {
    expect(edgeList(fitted(baseDocument(), "base"))).toEqual(
      [
        "W1: A3.X1.harness:1 - G1+",
        "W2: A3.X1.harness:2 - XC1m:1",
        "W3: SP1 - XC1c:1",
        "W4: B3.X1.harness:1 - SP1",
        "W6: G1- - XC1m:2",
        "W7: B3.X1.harness:2 - XC1c:2",
        "W8: A3.X1.harness:3 - XC1m:3",
        "W9: B3.X1.harness:3 - XC1c:3",
        "G1.cells: G1+ - G1-",
        "A3.S1: A3#in - A3.X1.device:1",
        "A3.K1: A3#in - A3.X1.device:3",
        "A3.K1c: A3#in - A3.X1.device:2",
        "B3.p.top: B3.X1.device:1 - B3.X1.device:3",
        "B3.p.bottom: B3.X1.device:2 - B3.X1.device:3",
        "A3.X1:1: A3.X1.device:1 - A3.X1.harness:1",
        "A3.X1:2: A3.X1.device:2 - A3.X1.harness:2",
        "A3.X1:3: A3.X1.device:3 - A3.X1.harness:3",
        "XC1:1: XC1c:1 - XC1m:1",
        "XC1:2: XC1c:2 - XC1m:2",
        "XC1:3: XC1c:3 - XC1m:3",
        "B3.X1:1: B3.X1.device:1 - B3.X1.harness:1",
        "B3.X1:2: B3.X1.device:2 - B3.X1.harness:2",
        "B3.X1:3: B3.X1.device:3 - B3.X1.harness:3",
      ].sort(),
    );
  });

  test("adds to another build exactly what its options fit", () => {
    const base = edgeList(fitted(baseDocument(), "base"));
    const cold = edgeList(fitted(baseDocument(), "cold"));
    expect(cold.filter((edge) => !base.includes(edge))).toEqual([
      "R1.X1:1: R1.X1.device:1 - R1.X1.harness:1",
      "R1.r: R1.X1.device:1 - R1.X1.device:2",
      "W5: R1.X1.harness:1 - SP1",
    ]);
    expect(base.filter((edge) => !cold.includes(edge))).toEqual([]);
    expect([...fitted(baseDocument(), "cold").fitted.wires.keys()]).toHaveLength(9);
    expect([...fitted(baseDocument(), "base").fitted.connectors.keys()]).toEqual(["A3.X1", "XC1", "B3.X1"]);
  });

  test("gives a device pin to a wired cavity with nothing described behind it, but none to a cavity nobody uses", () => {
    const document = baseDocument();
    at(document.components, 2).elements = [];
    document.wires = document.wires.filter((wire) => wire.id !== "W9");
    const harness = fitted(document, "base");
    expect(harness.nodeNumbers.has("B3.X1.device:1")).toBe(true);
    expect(harness.edgeNumbers.has("B3.X1:1")).toBe(true);
    expect(harness.nodeNumbers.has("B3.X1.device:3")).toBe(false);
    expect(harness.edgeNumbers.has("XC1:3")).toBe(false);
    expect(harness.nodeNumbers.has("XC1m:3")).toBe(true);
  });

  test("gives a device pin to a wired cavity whichever half is listed first", () => {
    const document = baseDocument();
    at(document.components, 2).elements = [];
    const before = edgeList(fitted(document, "base"));
    at(document.connectors, 2).sides.reverse();
    expect(edgeList(fitted(document, "base"))).toEqual(before);
  });

  test("keeps a device pin that has an element but no wire, unmated", () => {
    const harness = fitted(baseDocument(), "cold");
    expect(harness.nodeNumbers.has("R1.X1.device:2")).toBe(true);
    expect(harness.nodeNumbers.has("R1.X1.harness:2")).toBe(false);
    expect(harness.edgeNumbers.has("R1.X1:2")).toBe(false);
  });

  test("mates the half that is fitted: a jumper plug where the branch is not, the branch where it is", () => {
    const document = baseDocument();
    at(document.connectors, 1).sides = [
      { id: "m", name: "XC1m" },
      { id: "c", name: "XC1c", when: "OPT-COLD" },
      { id: "j", name: "XC1j", when: "!OPT-COLD" },
    ];
    for (const wire of document.wires) if (["W3", "W4", "W7", "W9"].includes(wire.id)) wire.when = "OPT-COLD";
    at(document.splices, 0).when = "OPT-COLD";
    document.wires.push({ id: "WJ", ends: ["XC1j:1", "XC1j:2"], when: "!OPT-COLD" });
    const base = edgeList(fitted(document, "base"));
    expect(base).toContain("XC1:1: XC1j:1 - XC1m:1");
    expect(base).toContain("XC1:2: XC1j:2 - XC1m:2");
    expect(base.filter((edge) => edge.startsWith("XC1:"))).toHaveLength(2);
    expect(edgeList(fitted(document, "cold"))).toContain("XC1:1: XC1c:1 - XC1m:1");
  });

  test("knows no build it was not told of", () => {
    expect(fitBuild(opened(baseDocument()), "constructor")).toBeUndefined();
  });

  test("refuses a document that was not checked", () => {
    const document = opened(baseDocument());
    const wire = { ...at(document.wires, 0), ends: ["G1+", "A9.X1:1"] as [string, string] };
    expect(() => fitBuild({ ...document, wires: [wire] }, "base")).toThrow('Cannot fit "W1": "A9.X1:1" leads nowhere');
  });

  test("numbers nodes and edges as the graph and the index do", () => {
    for (const wires of [20, 100, 600]) {
      const harness = fitted(generateHarness({ seed: wires, wires }), "full");
      expectNumbersAgree(harness);
    }
    expectNumbersAgree(fitted(baseDocument(), "cold"));
  });

  test("is nothing but renumbered when the lists of the document come in another order", () => {
    const random = seededRandom(45);
    for (const document of [baseDocument(), generateHarness({ seed: 3, wires: 300 })]) {
      const before = edgeList(fitted(document, "base"));
      for (let round = 0; round < 5; round++) {
        const shuffled = structuredClone(document);
        for (const list of [
          "wires",
          "splices",
          "terminalStuds",
          "components",
          "connectors",
          "segments",
          "topologyNodes",
        ] as const) {
          Object.assign(shuffled, { [list]: random.shuffle<unknown>(shuffled[list]) });
        }
        expect(edgeList(fitted(shuffled, "base"))).toEqual(before);
      }
    }
  });

  test("changes names only when wires, splices and studs are renamed: numbers and shape stay", () => {
    const document = generateHarness({ seed: 5, wires: 200 });
    const text = JSON.stringify(document).replaceAll(/"(W|SP|GND)(\d+)"/g, '"r$1-$2x"');
    const before = fitted(document, "full");
    const after = fitted(JSON.parse(text) as DocumentInput, "full");
    expect(after.nodes.some((node) => node.key.startsWith("rSP-"))).toBe(true);
    expect(after.edges.some((edge) => edge.key.startsWith("rW-"))).toBe(true);
    expect([...after.index.offsets]).toEqual([...before.index.offsets]);
    expect([...after.index.targets]).toEqual([...before.index.targets]);
    expect(after.edges.map((edge) => edge.kind)).toEqual(before.edges.map((edge) => edge.kind));
  });
});

function expectNumbersAgree(harness: Harness): void {
  const { index, nodes, edges, nodeNumbers, edgeNumbers } = harness;
  const graph = harnessGraph(harness);
  expect(graph.order).toBe(nodes.length);
  expect(graph.size).toBe(edges.length);
  expect([index.nodeCount, index.edgeCount]).toEqual([nodes.length, edges.length]);
  expect([nodeNumbers.size, edgeNumbers.size]).toEqual([nodes.length, edges.length]);
  nodes.forEach((node, number) => {
    expect(nodeNumbers.get(node.key)).toBe(number);
    expect(graph.getNodeAttributes(node.key)).toEqual({ number, node });
    // A self loop counts twice in both.
    expect(graph.degree(node.key)).toBe((index.offsets[number + 1] ?? 0) - (index.offsets[number] ?? 0));
  });
  edges.forEach((edge, number) => {
    expect(edgeNumbers.get(edge.key)).toBe(number);
    expect(graph.getEdgeAttribute(edge.key, "number")).toBe(number);
    const ends = [nodes[index.from[number] ?? -1]?.key, nodes[index.to[number] ?? -1]?.key];
    expect(graph.extremities(edge.key)).toEqual(ends);
  });
}
