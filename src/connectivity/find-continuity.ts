import { addTo, naturalOrder } from "../base/index.ts";
import type { Connector, Harness } from "../harness-model/index.ts";
import { components, type Passage } from "./graph/index.ts";

/** Two points of a harness whose components are disconnected, as node numbers. */
export interface ContinuityPair {
  readonly from: number;
  readonly to: number;
  /** Whether wires, splices, studs and mated inline connectors join them. */
  readonly isJoined: boolean;
  /** Whether length and conductor size of every wire of the net are known, so that its resistance can be calculated. */
  readonly isDimensioned: boolean;
}

/**
 * What a continuity test of a harness looks at, every component disconnected: each net from its first point to every other one, so that
 * all its pairs are proven, and neighbouring cavities of a connector that must not be joined.
 *
 * Points are the contacts of connectors that end the harness, and studs. An inline or pass-through connector that is mated stays mated.
 *
 * @param harness The harness.
 * @returns The pairs: those that join in natural order of their addresses, then the neighbours that must not.
 */
export function findContinuity(harness: Harness): readonly ContinuityPair[] {
  const { nodes, edges, index } = harness;
  const passage = harnessAlone(harness);
  const { ofNode } = components(index, passage);
  const wired = new Set<number>();
  const inline = new Set<number>();
  const vague = new Set<number>();
  edges.forEach((edge, number) => {
    const ends = [index.from[number] ?? -1, index.to[number] ?? -1];
    if (edge.kind === "wire") {
      ends.forEach((end) => wired.add(end));
      const { lengthMm, crossSectionMm2 } = edge.wire;
      if (lengthMm === undefined || crossSectionMm2 === undefined) vague.add(ofNode[ends[0] ?? -1] ?? -1);
    }
    if (edge.kind === "mating" && passage.edges[number] === 1) ends.forEach((end) => inline.add(end));
  });
  const isPoint = (number: number): boolean => {
    const kind = nodes[number]?.kind;
    return wired.has(number) && !inline.has(number) && (kind === "contact" || kind === "stud");
  };
  const byNet = new Map<number, number[]>();
  nodes.forEach((_, number) => {
    if (isPoint(number)) addTo(byNet, ofNode[number] ?? -1, number);
  });
  const keyOf = (number: number): string => nodes[number]?.key ?? "";
  const joined = [...byNet.values()].flatMap((points) => {
    const [first = -1, ...others] = points.toSorted((a, b) => naturalOrder(keyOf(a), keyOf(b)));
    return others.map((to) => ({ from: first, to, isJoined: true, isDimensioned: !vague.has(ofNode[first] ?? -1) }));
  });
  joined.sort((a, b) => naturalOrder(keyOf(a.from), keyOf(b.from)) || naturalOrder(keyOf(a.to), keyOf(b.to)));
  const apart = neighbours(harness)
    .filter(([from, to]) => isPoint(from) && isPoint(to) && ofNode[from] !== ofNode[to])
    .map(([from, to]) => ({ from, to, isJoined: false, isDimensioned: false }));
  return [...joined, ...apart];
}

/** Wires and mated inline connectors: what is left when every component is disconnected. */
function harnessAlone({ edges, nodes }: Harness): Passage {
  return {
    nodes: new Uint8Array(nodes.length).fill(1),
    edges: Uint8Array.from(edges, (edge) =>
      Number(edge.kind === "wire" || (edge.kind === "mating" && edge.connector.component === undefined)),
    ),
  };
}

/** Cavities beside or above one another on the face of one side of a connector, as pairs of node numbers. */
function neighbours({ nodes }: Harness): readonly (readonly [number, number])[] {
  const faces = new Map<string, Map<string, number>>();
  nodes.forEach((node, number) => {
    if (node.kind !== "contact") return;
    const face = `${node.connector.id} ${node.side.id}`;
    const places = faces.get(face) ?? new Map<string, number>();
    faces.set(face, places.set(place(node.cavity), number));
  });
  return nodes.flatMap((node, number) => {
    if (node.kind !== "contact") return [];
    const places = faces.get(`${node.connector.id} ${node.side.id}`);
    const { x, y } = node.cavity;
    return [place({ x: x + 1, y }), place({ x, y: y + 1 })].flatMap((at): (readonly [number, number])[] => {
      const other = places?.get(at);
      return other === undefined ? [] : [[number, other]];
    });
  });
}

function place({ x, y }: Pick<Connector["cavities"][number], "x" | "y">): string {
  return `${x} ${y}`;
}
