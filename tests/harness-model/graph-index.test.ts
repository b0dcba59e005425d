import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { buildGraphIndex, type GraphIndex } from "ohmward/harness-model";

interface Sketch {
  readonly nodeCount: number;
  readonly ends: readonly (readonly [number, number])[];
}

const sketch: fc.Arbitrary<Sketch> = fc.integer({ min: 1, max: 12 }).chain((nodeCount) => {
  const node = fc.integer({ min: 0, max: nodeCount - 1 });
  return fc.record({ nodeCount: fc.constant(nodeCount), ends: fc.array(fc.tuple(node, node), { maxLength: 40 }) });
});

function build({ nodeCount, ends }: Sketch): GraphIndex {
  return buildGraphIndex(
    nodeCount,
    ends.map(([from]) => from),
    ends.map(([, to]) => to),
  );
}

/** Arcs of a node as pairs of edge and target, as the index gives them. */
function arcsOf(index: GraphIndex, node: number): (readonly [number, number])[] {
  const arcs: (readonly [number, number])[] = [];
  for (let arc = index.offsets[node] ?? 0; arc < (index.offsets[node + 1] ?? 0); arc++) {
    arcs.push([index.arcEdges[arc] ?? -1, index.targets[arc] ?? -1]);
  }
  return arcs;
}

describe("buildGraphIndex()", () => {
  test("gives each node the arcs a plain look through all edges finds, in rising order of edges", () => {
    fc.assert(
      fc.property(sketch, (given) => {
        const index = build(given);
        for (let node = 0; node < given.nodeCount; node++) {
          const plain = given.ends.flatMap(([from, to], edge) => [
            ...(from === node ? [[edge, to] as const] : []),
            ...(to === node ? [[edge, from] as const] : []),
          ]);
          expect(arcsOf(index, node)).toEqual(plain);
        }
      }),
      { seed: 45, numRuns: 400 },
    );
  });

  test("counts every edge twice and ends where the arcs end", () => {
    fc.assert(
      fc.property(sketch, (given) => {
        const index = build(given);
        expect(index.nodeCount).toBe(given.nodeCount);
        expect(index.edgeCount).toBe(given.ends.length);
        expect(index.offsets).toHaveLength(given.nodeCount + 1);
        expect(index.offsets[0]).toBe(0);
        expect(index.offsets[given.nodeCount]).toBe(2 * given.ends.length);
        expect(index.targets).toHaveLength(2 * given.ends.length);
        expect(given.ends.map((_, edge) => [index.from[edge], index.to[edge]])).toEqual(given.ends);
      }),
      { seed: 45, numRuns: 200 },
    );
  });

  test("shares no storage with what it was made from", () => {
    const from = Int32Array.of(0, 1);
    const index = buildGraphIndex(3, from, Int32Array.of(1, 2));
    from[0] = 2;
    expect([...index.from]).toEqual([0, 1]);
  });

  test("takes no nodes, no edges, and a self loop as two arcs", () => {
    expect([...build({ nodeCount: 0, ends: [] }).offsets]).toEqual([0]);
    expect(arcsOf(build({ nodeCount: 1, ends: [[0, 0]] }), 0)).toEqual([
      [0, 0],
      [0, 0],
    ]);
  });

  test.each([
    ["a missing end", [0, 1], [1]],
    ["a node beyond the last", [0], [2]],
    ["a node below 0", [-1], [1]],
  ])("refuses %s", (_, from, to) => {
    expect(() => buildGraphIndex(2, from, to)).toThrow(RangeError);
  });
});
