import { describe, expect, test } from "vitest";
import { findContinuity } from "ohmward/connectivity";
import type { Harness } from "ohmward/harness-model";
import { openDemo } from "../demo-harness/open-demo.ts";
import { fitBuild } from "ohmward/harness-model";

/** All-pairs reachability by Warshall's algorithm (Warshall 1962) on wires and mated inline connectors, written for this test alone. */
function warshall(harness: Harness): readonly (readonly boolean[])[] {
  const { nodes, edges, index } = harness;
  const reached = nodes.map((_, at) => nodes.map((__, to) => at === to));
  edges.forEach((edge, number) => {
    const isOfHarness = edge.kind === "wire" || (edge.kind === "mating" && edge.connector.component === undefined);
    const [from, to] = [index.from[number] ?? -1, index.to[number] ?? -1];
    const [row, other] = [reached[from], reached[to]];
    if (isOfHarness && row && other) [row[to], other[from]] = [true, true];
  });
  for (const through of nodes.keys())
    for (const row of reached)
      if (row[through] === true) reached[through]?.forEach((is, to) => (row[to] = row[to] === true || is));
  return reached;
}

describe("findContinuity()", () => {
  const harness = fitBuild(openDemo(), "base");
  if (!harness) throw new Error("The demo has no base build");
  const pairs = findContinuity(harness);
  const reached = warshall(harness);

  test("the pairs that join prove every pair of test points that wires join, and no other", () => {
    const joined = pairs.filter(({ isJoined }) => isJoined);
    const points = new Set(pairs.flatMap(({ from, to }) => [from, to]));
    const group = new Map([...points].map((point) => [point, point]));
    const find = (point: number): number => {
      const up = group.get(point) ?? point;
      return up === point ? point : find(up);
    };
    for (const { from, to } of joined) group.set(find(to), find(from));
    for (const from of points)
      for (const to of points) expect(find(from) === find(to), `${from} ${to}`).toBe(reached[from]?.[to] === true);
    // One pair less than points in each net: none is tested twice.
    expect(joined.length).toBe(points.size - new Set([...points].map(find)).size);
  });

  test("every end of a wire at a component or stud is a point of some pair, unless its net has no other and no neighbour", () => {
    const points = new Set(pairs.flatMap(({ from, to }) => [from, to]));
    harness.edges.forEach((edge, number) => {
      if (edge.kind !== "wire") return;
      for (const end of [harness.index.from[number] ?? -1, harness.index.to[number] ?? -1]) {
        const node = harness.nodes[end];
        if (node?.kind === "contact" && node.connector.component !== undefined) expect(points, node.key).toContain(end);
      }
    });
  });

  test("neighbours that must not join lie side by side in one connector and are on different nets", () => {
    const apart = pairs.filter(({ isJoined }) => !isJoined);
    expect(apart.length).toBeGreaterThan(50);
    for (const { from, to } of apart) {
      const [one, other] = [harness.nodes[from], harness.nodes[to]];
      if (one?.kind !== "contact" || other?.kind !== "contact") throw new Error("No contact");
      expect([one.connector, one.side]).toEqual([other.connector, other.side]);
      expect(Math.abs(one.cavity.x - other.cavity.x) + Math.abs(one.cavity.y - other.cavity.y)).toBe(1);
      expect(reached[from]?.[to]).toBe(false);
    }
  });
});
