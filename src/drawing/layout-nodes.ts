import { addTo } from "../base/index.ts";
import type { Harness } from "../harness-model/index.ts";
import { thingKey, wireEnds } from "./wire-ends.ts";
import { moved, type XY } from "./xy.ts";

/** A run of wires that have no route, between the two things they join. */
interface DirectRun {
  readonly id: string;
  readonly items: readonly [string, string];
  readonly spots: readonly [string, string];
  readonly wires: readonly string[];
  readonly lengthMm: number | undefined;
}

/** The points of a drawing before things are set beside each other. A spot is a place, or a thing that has none. */
export interface LayoutNodes {
  readonly points: ReadonlyMap<string, XY>;
  /** The spot of each thing, by thing key; a splice on a segment has none. */
  readonly ofItem: ReadonlyMap<string, string>;
  /** Fitted wires by segment. */
  readonly wiresIn: ReadonlyMap<string, readonly string[]>;
  readonly runs: readonly DirectRun[];
}

/**
 * Finds a point for every place in use and every thing without a place. Points the document gives are kept where at least half of
 * the places have one, and the others grow out from their neighbours; otherwise the whole is laid out as a tree.
 */
export function findLayoutNodes(harness: Harness): LayoutNodes {
  const ofItem = spotsOfThings(harness);
  const wiresIn = wiresBySegment(harness);
  const runs = directRuns(harness, ofItem);
  const links: TreeLink[] = [];
  for (const segment of harness.document.segments) {
    if (wiresIn.has(segment.id)) links.push({ ends: [segment.from, segment.to], lengthMm: segment.lengthMm });
  }
  for (const run of runs) if (run.spots[0] !== run.spots[1]) links.push({ ends: run.spots, lengthMm: run.lengthMm });
  const names = [...new Set([...links.flatMap((link) => link.ends), ...ofItem.values()])];
  return { points: pointsOf(harness, names, links), ofItem, wiresIn, runs };
}

function spotsOfThings(harness: Harness): ReadonlyMap<string, string> {
  const { fitted, document } = harness;
  const places = new Set<string>(document.topologyNodes.map((place) => place.id));
  const spots = new Map<string, string>();
  const add = (type: string, id: string, place: string | undefined): void => {
    const key = thingKey({ type, id });
    spots.set(key, place !== undefined && places.has(place) ? place : key);
  };
  for (const connector of fitted.connectors.values()) add("connector", connector.id, connector.place);
  for (const stud of fitted.terminalStuds.values()) add("stud", stud.id, stud.place);
  for (const splice of fitted.splices.values()) if (!splice.at) add("splice", splice.id, undefined);
  for (const wire of fitted.wires.values()) {
    const far = wire.ends[1] === undefined ? wireEnds(harness, wire.id)?.[1] : undefined;
    if (far) add(far.type, far.id, undefined);
  }
  return spots;
}

function wiresBySegment({ fitted }: Harness): ReadonlyMap<string, readonly string[]> {
  const wires = new Map<string, string[]>();
  for (const wire of fitted.wires.values()) {
    for (const segment of new Set(wire.route ?? [])) {
      addTo(wires, segment, wire.id);
    }
  }
  return wires;
}

function directRuns(harness: Harness, ofItem: ReadonlyMap<string, string>): readonly DirectRun[] {
  const runs = new Map<string, DirectRun & { readonly wires: string[] }>();
  for (const wire of harness.fitted.wires.values()) {
    const ends = wire.route && wire.route.length > 0 ? undefined : wireEnds(harness, wire.id);
    if (!ends) continue;
    const [a = "", b = ""] = ends.map(thingKey).sort((first, second) => (first < second ? -1 : 1));
    const spots = [ofItem.get(a), ofItem.get(b)] as const;
    if (a === b || spots[0] === undefined || spots[1] === undefined) continue;
    const id = `${a} - ${b}`;
    const known = runs.get(id);
    if (known) known.wires.push(wire.id);
    else runs.set(id, { id, items: [a, b], spots: [spots[0], spots[1]], wires: [wire.id], lengthMm: wire.lengthMm });
  }
  return [...runs.values()];
}

function pointsOf(harness: Harness, names: readonly string[], links: readonly TreeLink[]): ReadonlyMap<string, XY> {
  const authored = new Map<string, XY>();
  for (const { id, x, y } of harness.document.topologyNodes)
    if (x !== undefined && y !== undefined) authored.set(id, { x, y });
  for (const { id, x, y } of harness.fitted.terminalStuds.values())
    if (x !== undefined && y !== undefined) authored.set(thingKey({ type: "stud", id }), { x, y });
  const known = names.filter((name) => authored.has(name));
  if (known.length * 2 < names.length || known.length === 0) return treePoints(names, links);
  return grow(names, links, new Map(known.map((name) => [name, authored.get(name) ?? { x: 0, y: 0 }])));
}

/** Room between a given point and one that grows out of it, in drawing units. */
const SHOOT = 70;

/** Sets the spots without a point around their neighbours, away from the middle, each a sixth of a turn further. */
function grow(names: readonly string[], links: readonly TreeLink[], points: Map<string, XY>): ReadonlyMap<string, XY> {
  const all = [...points.values()];
  const middle = {
    x: all.reduce((sum, point) => sum + point.x, 0) / all.length,
    y: all.reduce((sum, point) => sum + point.y, 0) / all.length,
  };
  const shoots = new Map<string, number>();
  for (let grown = true; grown;) {
    grown = false;
    for (const { ends } of links) {
      for (const [from, to] of [ends, [ends[1], ends[0]] as const]) {
        const start = points.get(from);
        if (!start || points.has(to)) continue;
        const turn = shoots.get(from) ?? 0;
        shoots.set(from, turn + 1);
        const angle = Math.atan2(start.y - middle.y, start.x - middle.x) + (turn % 2 === 0 ? turn : -turn - 1) * 0.52;
        points.set(to, moved(start, { x: Math.cos(angle), y: Math.sin(angle) }, SHOOT));
        grown = true;
      }
    }
  }
  const bottom = Math.max(...[...points.values()].map((point) => point.y));
  const left = names.filter((name) => !points.has(name));
  left.forEach((name, at) => points.set(name, { x: (at % 12) * 90, y: bottom + 120 + Math.floor(at / 12) * 80 }));
  return points;
}

/** A link of the tree: two spots and how long it is, if known. */
interface TreeLink {
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
function treePoints(spots: readonly string[], links: readonly TreeLink[]): ReadonlyMap<string, XY> {
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
