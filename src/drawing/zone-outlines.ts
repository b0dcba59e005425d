import type { Zone } from "../model/index.ts";
import { groupBy } from "./group-by.ts";
import type { DrawnThing, DrawnZone } from "./layout.ts";
import type { XY } from "./xy.ts";

/** Room between a thing and the outline of its zone, in drawing units, and corners of the round around each thing. */
const MARGIN = 44;
const CORNERS = 16;

/** An outline around the things of each zone: the convex hull of a round about each. Zones with nothing in them are left out. */
export function zoneOutlines(zones: readonly Zone[], things: readonly DrawnThing[]): readonly DrawnZone[] {
  const inZone = groupBy(things, (thing) => thing.zone);
  return zones.flatMap(({ id, label }) => {
    const own = inZone.get(id) ?? [];
    return own.length === 0 ? [] : [{ id, label, outline: convexHull(own.flatMap(round)) }];
  });
}

function round({ x, y }: XY): readonly XY[] {
  return Array.from({ length: CORNERS }, (_, at) => {
    const angle = (2 * Math.PI * at) / CORNERS;
    return { x: x + MARGIN * Math.cos(angle), y: y + MARGIN * Math.sin(angle) };
  });
}

/** Andrew's monotone chain. */
function convexHull(points: readonly XY[]): readonly XY[] {
  const sorted = points.toSorted((a, b) => a.x - b.x || a.y - b.y);
  const lower = halfHull(sorted);
  const upper = halfHull(sorted.toReversed());
  return [...lower.slice(0, -1), ...upper.slice(0, -1)];
}

function halfHull(points: readonly XY[]): readonly XY[] {
  const hull: XY[] = [];
  for (const point of points) {
    while (hull.length >= 2 && !turnsLeft(hull.at(-2) ?? point, hull.at(-1) ?? point, point)) hull.pop();
    hull.push(point);
  }
  return hull;
}

function turnsLeft(a: XY, b: XY, c: XY): boolean {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x) > 0;
}
