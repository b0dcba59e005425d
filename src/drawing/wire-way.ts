import type { Harness, Segment } from "../model/index.ts";
import type { DrawnThing, Layout } from "./layout.ts";
import { thingKey, wireEnds } from "./wire-ends.ts";
import { distance, type XY } from "./xy.ts";

/** A straight of a wire's way; the bundle it lies in, none for the bit between a place and a thing that stands beside it. */
export interface WayLeg {
  readonly from: XY;
  readonly to: XY;
  readonly bundle?: string;
}

/** Half width and depth of the loop that shows a wire from a thing back to itself, in drawing units. */
const LOOP = { half: 14, depth: 42 };

/**
 * The way of a wire over the drawing, from its first end to its second: along its route, or straight where it has none.
 *
 * @returns Its straights; none where the id is no fitted wire.
 */
export function wireWay(harness: Harness, layout: Layout, wireId: string): readonly WayLeg[] {
  const ends = wireEnds(harness, wireId);
  const [start, end] = ends?.map((each) => layout.things.get(thingKey(each))) ?? [];
  if (!ends || !start || !end) return [];
  const route = (harness.fitted.wires.get(wireId)?.route ?? []).flatMap((id) => harness.segments.get(id) ?? []);
  if (route.length > 0) return routedWay(layout, route, [start, end]);
  if (start === end) return loopAt(start);
  const [a = "", b = ""] = [thingKey(start), thingKey(end)].sort((first, second) => (first < second ? -1 : 1));
  const id = `${a} - ${b}`;
  return [{ from: start, to: end, ...(layout.bundleById.has(id) && { bundle: id }) }];
}

function routedWay(
  layout: Layout,
  route: readonly Segment[],
  [start, end]: readonly [DrawnThing, DrawnThing],
): readonly WayLeg[] {
  const joints = route.slice(1).map((segment, at) => sharedPlace(route[at] ?? segment, segment));
  const first = route[0];
  const last = route.at(-1);
  if (!first || !last) return [];
  // A splice sits on the segment itself, so its wire starts there and not at an end of it.
  const entry = start.type === "splice" ? start : placePoint(layout, first, joints[0], start);
  const exit = end.type === "splice" ? end : placePoint(layout, last, joints.at(-1), end);
  const points = [entry, ...joints.map((place) => placeXY(layout, place) ?? entry), exit];
  const legs: WayLeg[] = route.map((segment, at) => ({
    from: points[at] ?? entry,
    to: points[at + 1] ?? exit,
    bundle: segment.id,
  }));
  if (distance(start, entry) > 0.5) legs.unshift({ from: start, to: entry });
  if (distance(exit, end) > 0.5) legs.push({ from: exit, to: end });
  return legs;
}

function sharedPlace(before: Segment, after: Segment): string | undefined {
  return [before.to, before.from].find((place) => place === after.from || place === after.to);
}

/** Where a wire enters its outermost segment: the end that is not the joint; with one segment only, the end nearer the thing. */
function placePoint(layout: Layout, segment: Segment, joint: string | undefined, thing: DrawnThing): XY {
  const ends = [segment.from, segment.to];
  const place =
    ends.find((each) => each === thing.place) ??
    (joint === undefined ? undefined : ends.find((each) => each !== joint));
  const known = placeXY(layout, place);
  if (known) return known;
  const points = ends.flatMap((each) => placeXY(layout, each) ?? []);
  return points.toSorted((a, b) => distance(a, thing) - distance(b, thing))[0] ?? thing;
}

function placeXY(layout: Layout, id: string | undefined): XY | undefined {
  return id === undefined ? undefined : layout.placeById.get(id);
}

function loopAt({ x, y }: XY): readonly WayLeg[] {
  const left = { x: x - LOOP.half, y: y + LOOP.depth };
  const right = { x: x + LOOP.half, y: y + LOOP.depth };
  return [
    { from: { x, y }, to: left },
    { from: left, to: right },
    { from: right, to: { x, y } },
  ];
}
