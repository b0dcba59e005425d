import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { components, findBiconnectedComponents, reach } from "../../../src/connectivity/graph/index.ts";
import { graphOf, passageWithout, smallQuestions } from "./small-graphs.ts";

describe("components()", () => {
  test("numbers the parts by their lowest node and leaves blocked nodes out", () => {
    const index = graphOf(6, [
      [5, 0],
      [1, 2],
      [2, 3],
    ]);
    expect(components(index, passageWithout(index))).toEqual({ count: 3, ofNode: Int32Array.of(0, 1, 1, 1, 2, 0) });
    const cut = passageWithout(index, { nodes: [2], edges: [0] });
    expect(components(index, cut)).toEqual({ count: 5, ofNode: Int32Array.of(0, 1, -1, 2, 3, 4) });
  });

  test("puts together exactly what reaches each other, and agrees with findBlocks() (law)", () => {
    fc.assert(
      fc.property(smallQuestions, ({ index, passage, pair }) => {
        const { count, ofNode } = components(index, passage);
        const { reached } = reach(index, passage, [pair.from]);
        const own = ofNode[pair.from];
        expect([...ofNode].map((component) => component !== -1 && component === own)).toEqual(
          [...reached].map((flag) => flag === 1),
        );
        const blocks = findBiconnectedComponents(index, passage);
        expect(blocks.componentCount).toBe(count);
        expect(blocks.componentOfNode).toEqual(ofNode);
      }),
      { seed: 12, numRuns: 300 },
    );
  });
});
