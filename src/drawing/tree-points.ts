import type { XY } from "./xy.ts";

/** A link of the tree: two spots and how long it is, if known. */
export interface TreeLink {
  readonly ends: readonly [string, string];
  readonly lengthMm?: number | undefined;
}

/** Room between separate pieces, in drawing units. */
const PIECE_GAP = 160;
/** Least room between two ends on one branch, in drawing units. */
const LEAF_GAP = 56;

/**
 * Gives spots a point each by the equal-angle method: from the middle of each piece every branch gets a wedge as wide as its share of
 * the ends, so that branches never cross. Links that close a ring do not move anything. The same input gives the same points.
 *
 * @param spots Names of the spots, in a fixed order.
 * @param links What joins them, the most important first.
 * @returns A point for every spot.
 */
export function treePoints(spots: readonly string[], links: readonly TreeLink[]): ReadonlyMap<string, XY> {
  const near = neighbours(spots, links);
  const points = new Map<string, XY>();
  let left = 0;
  for (const spot of spots) {
    if (points.has(spot)) continue;
    const piece = layPiece(near, middleOf(near, spot));
    const xs = [...piece.values()].map((point) => point.x);
    const ys = [...piece.values()].map((point) => point.y);
    const by = { x: left - least(xs), y: -least(ys) };
    for (const [name, point] of piece) points.set(name, { x: point.x + by.x, y: point.y + by.y });
    left += most(xs) - least(xs) + PIECE_GAP;
  }
  return points;
}

type Near = ReadonlyMap<string, readonly { readonly spot: string; readonly length: number }[]>;

/** Neighbours along the links that join something new; a link that would close a ring is left out, so earlier links count for more. */
function neighbours(spots: readonly string[], links: readonly TreeLink[]): Near {
  const near = new Map<string, { spot: string; length: number }[]>(spots.map((spot) => [spot, []]));
  const leaders = new Map<string, string>();
  for (const { ends, lengthMm } of links) {
    const [a, b] = ends.map((end) => leaderOf(leaders, end));
    if (a === undefined || b === undefined || a === b) continue;
    leaders.set(a, b);
    const length = lengthMm === undefined ? 110 : 50 + Math.min(220, 4 * Math.sqrt(Math.max(0, lengthMm)));
    near.get(ends[0])?.push({ spot: ends[1], length });
    near.get(ends[1])?.push({ spot: ends[0], length });
  }
  return near;
}

/** The spot that stands for the piece another one is in; shortens the way to it for the next time. */
function leaderOf(leaders: Map<string, string>, spot: string): string {
  let leader = spot;
  for (let next = leaders.get(leader); next !== undefined; next = leaders.get(leader)) leader = next;
  for (let at = spot; at !== leader;) {
    const next = leaders.get(at) ?? leader;
    leaders.set(at, leader);
    at = next;
  }
  return leader;
}

interface Walk {
  /** Spots in the order they were reached. */
  readonly order: readonly string[];
  readonly parents: ReadonlyMap<string, string>;
}

function walk(near: Near, from: string): Walk {
  const parents = new Map<string, string>();
  const order = [from];
  const seen = new Set(order);
  for (const spot of order) {
    for (const next of near.get(spot) ?? []) {
      if (seen.has(next.spot)) continue;
      seen.add(next.spot);
      parents.set(next.spot, spot);
      order.push(next.spot);
    }
  }
  return { order, parents };
}

/** The middle of the longest way through a piece: a balanced place to start from. */
function middleOf(near: Near, spot: string): string {
  const end = walk(near, spot).order.at(-1) ?? spot;
  const { order, parents } = walk(near, end);
  const way = [order.at(-1) ?? end];
  for (let at = parents.get(way[0] ?? ""); at !== undefined; at = parents.get(at)) way.push(at);
  return way[Math.floor(way.length / 2)] ?? spot;
}

function layPiece(near: Near, root: string): ReadonlyMap<string, XY> {
  const { order, parents } = walk(near, root);
  const leaves = countLeaves(order, parents);
  const points = new Map<string, XY>([[root, { x: 0, y: 0 }]]);
  const wedges = new Map<string, { start: number; width: number }>([[root, { start: -Math.PI, width: 2 * Math.PI }]]);
  for (const spot of order) {
    const here = points.get(spot);
    const wedge = wedges.get(spot);
    if (!here || !wedge) continue;
    let start = wedge.start;
    for (const next of near.get(spot) ?? []) {
      if (parents.get(next.spot) !== spot || points.has(next.spot)) continue;
      const width = (wedge.width * (leaves.get(next.spot) ?? 1)) / (leaves.get(spot) ?? 1);
      const angle = start + width / 2;
      const room = LEAF_GAP / (2 * Math.sin(Math.min(Math.PI / 2, width / 2)));
      const length = Math.max(next.length, Math.min(600, room));
      points.set(next.spot, { x: here.x + length * Math.cos(angle), y: here.y + length * Math.sin(angle) });
      wedges.set(next.spot, { start, width });
      start += width;
    }
  }
  return points;
}

function countLeaves(order: readonly string[], parents: ReadonlyMap<string, string>): ReadonlyMap<string, number> {
  const leaves = new Map<string, number>();
  for (const spot of order.toReversed()) {
    const own = leaves.get(spot) ?? 1;
    leaves.set(spot, own);
    const parent = parents.get(spot);
    if (parent !== undefined) leaves.set(parent, (leaves.get(parent) ?? 0) + own);
  }
  return leaves;
}

// Spread arguments overflow the stack with very many values.
function least(values: readonly number[]): number {
  return values.reduce((a, b) => Math.min(a, b), Infinity);
}

function most(values: readonly number[]): number {
  return values.reduce((a, b) => Math.max(a, b), -Infinity);
}
