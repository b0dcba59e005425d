import type { Part, PartList } from "./part.ts";

/**
 * The same parts with a resistance held between two nodes, as a meter or a lamp is.
 *
 * @param list The parts.
 * @param ends The two nodes.
 * @param ohm Resistance of what is held there.
 */
export function withTester(list: PartList, ends: readonly [number, number], ohm: number): PartList {
  const tester: Part = {
    key: "tester",
    owner: "tester",
    group: "tester",
    ohm,
    volt: 0,
    present: true,
    control: undefined,
    module: undefined,
    tolerance: 0,
    voltTolerance: 0,
  };
  const { shape } = list;
  const grown = {
    nodeCount: shape.nodeCount,
    from: Int32Array.from([...shape.from, ends[0]]),
    to: Int32Array.from([...shape.to, ends[1]]),
  };
  return { ...list, shape: grown, parts: [...list.parts, tester] };
}
