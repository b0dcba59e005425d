import type { Harness, Segment } from "../harness-model/index.ts";
import { colourMark, type ColourMark } from "./colour-mark.ts";
import { layoutHarness, type DrawnItem, type Layout } from "./layout-harness.ts";
import { thingKey, wireEnds } from "./wire-ends.ts";
import { along, distance, moved, rightHand, type XY } from "./xy.ts";

/** A traced wire as a line of its own over its bundles. */
export interface HighlightedWire {
  readonly wire: string;
  readonly mark: ColourMark;
  /** Corners of its line, two or more. */
  readonly points: readonly XY[];
  /** Where its name is best written. */
  readonly middle: XY;
  readonly bundles: readonly string[];
}

/** Which bundles carry which traced wires, and the wires as lines side by side. */
export interface HighlightedBundles {
  readonly bundles: ReadonlyMap<string, readonly string[]>;
  readonly wires: readonly HighlightedWire[];
}

/** Room between wires in one bundle, and the most that all wires of a bundle together may take, in drawing units. */
const LANE = 8;
const WIDEST = 64;

/**
 * Finds the bundles that traced wires run in, and draws each wire as a line beside the others in its bundles. A wire keeps its side from
 * one bundle to the next.
 *
 * @param wires Ids of wires; what is not a fitted wire is passed over.
 */
export function litBundles(harness: Harness, wires: Iterable<string>): HighlightedBundles {
  const layout = layoutHarness(harness);
  const bundles = new Map<string, string[]>();
  const ways = [...new Set(wires)].flatMap((wire) => {
    const legs = wireWay(harness, layout, wire);
    if (legs.length === 0) return [];
    for (const { bundle } of legs) {
      if (bundle === undefined) continue;
      const carried = bundles.get(bundle) ?? [];
      carried.push(wire);
      bundles.set(bundle, carried);
    }
    return [{ wire, legs }];
  });
  const lit = ways.map(({ wire, legs }): HighlightedWire => {
    const laid = legs.map((leg) => setInLane(layout, bundles, { leg, wire }));
    const points = joinLegs(laid);
    const mark = colourMark(harness.fitted.wires.get(wire)?.colour);
    return {
      wire,
      mark,
      points,
      middle: middleOf(laid, { carried: legs.map((leg) => bundles.get(leg.bundle ?? "") ?? []), wire }),
      bundles: legs.flatMap((leg) => leg.bundle ?? []),
    };
  });
  return { bundles, wires: lit };
}

interface LaidLeg {
  readonly from: XY;
  readonly to: XY;
  /** It runs against the direction of its bundle. */
  readonly isAgainst?: boolean;
}

function setInLane(
  layout: Layout,
  carried: ReadonlyMap<string, readonly string[]>,
  { leg, wire }: { readonly leg: RouteLeg; readonly wire: string },
): LaidLeg {
  const bundle = layout.bundleById.get(leg.bundle ?? "");
  const wires = carried.get(leg.bundle ?? "") ?? [];
  if (!bundle || wires.length < 2) return leg;
  const lane = Math.min(LANE, WIDEST / (wires.length - 1));
  const offset = (wires.indexOf(wire) - (wires.length - 1) / 2) * lane;
  const side = rightHand(bundle.from, bundle.to);
  const isAgainst = distance(leg.from, bundle.from) > distance(leg.to, bundle.from);
  return { from: moved(leg.from, side, offset), to: moved(leg.to, side, offset), isAgainst };
}

/** Joins straights to one line: neighbours meet where their lines cross, if that is near. */
function joinLegs(legs: readonly LaidLeg[]): readonly XY[] {
  const first = legs[0];
  const last = legs.at(-1);
  if (!first || !last) return [];
  const corners = legs.slice(1).flatMap((leg, at) => {
    const before = legs[at] ?? leg;
    if (distance(before.to, leg.from) < 0.5) return [leg.from];
    const crossing = whereLinesCross(before, leg);
    const isNear = crossing && distance(crossing, before.to) + distance(crossing, leg.from) < WIDEST;
    return isNear ? [crossing] : [before.to, leg.from];
  });
  return [first.from, ...corners, last.to];
}

function whereLinesCross(a: LaidLeg, b: LaidLeg): XY | undefined {
  const [ax, ay] = [a.to.x - a.from.x, a.to.y - a.from.y];
  const [bx, by] = [b.to.x - b.from.x, b.to.y - b.from.y];
  const cross = ax * by - ay * bx;
  // Straights that run on in nearly the same direction cross far away.
  if (Math.abs(cross) < 0.05 * Math.hypot(ax, ay) * Math.hypot(bx, by)) return undefined;
  const share = ((b.from.x - a.from.x) * by - (b.from.y - a.from.y) * bx) / cross;
  return { x: a.from.x + share * ax, y: a.from.y + share * ay };
}

/**
 * The place of a name: on the longest straight, each wire of a bundle at a share of its own, so that names beside each other do not meet.
 */
function middleOf(
  legs: readonly LaidLeg[],
  { carried, wire }: { readonly carried: readonly (readonly string[])[]; readonly wire: string },
): XY {
  let best = { length: -1, at: 0 };
  legs.forEach(({ from, to }, at) => {
    const length = distance(from, to);
    if (length > best.length) best = { length, at };
  });
  const leg = legs[best.at];
  if (!leg) return { x: 0, y: 0 };
  const beside = carried[best.at] ?? [];
  const share = beside.length < 2 ? 0.5 : (beside.indexOf(wire) + 1) / (beside.length + 1);
  return along(leg.from, leg.to, leg.isAgainst === true ? 1 - share : share);
}

/** A straight of a wire's way; the bundle it lies in, none for the bit between a place and a thing that stands beside it. */
interface RouteLeg {
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
export function wireWay(harness: Harness, layout: Layout, wireId: string): readonly RouteLeg[] {
  const ends = wireEnds(harness, wireId);
  const [start, end] = ends?.map((each) => layout.items.get(thingKey(each))) ?? [];
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
  [start, end]: readonly [DrawnItem, DrawnItem],
): readonly RouteLeg[] {
  const joints = route.slice(1).map((segment, at) => sharedPlace(route[at] ?? segment, segment));
  const first = route[0];
  const last = route.at(-1);
  if (!first || !last) return [];
  // A splice sits on the segment itself, so its wire starts there and not at an end of it.
  const entry = start.type === "splice" ? start : placePoint(layout, first, joints[0], start);
  const exit = end.type === "splice" ? end : placePoint(layout, last, joints.at(-1), end);
  const points = [entry, ...joints.map((place) => placeXY(layout, place) ?? entry), exit];
  const legs: RouteLeg[] = route.map((segment, at) => ({
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
function placePoint(layout: Layout, segment: Segment, joint: string | undefined, item: DrawnItem): XY {
  const ends = [segment.from, segment.to];
  const place =
    ends.find((each) => each === item.place) ?? (joint === undefined ? undefined : ends.find((each) => each !== joint));
  const known = placeXY(layout, place);
  if (known) return known;
  const points = ends.flatMap((each) => placeXY(layout, each) ?? []);
  return points.toSorted((a, b) => distance(a, item) - distance(b, item))[0] ?? item;
}

function placeXY(layout: Layout, id: string | undefined): XY | undefined {
  return id === undefined ? undefined : layout.placeById.get(id);
}

function loopAt({ x, y }: XY): readonly RouteLeg[] {
  const left = { x: x - LOOP.half, y: y + LOOP.depth };
  const right = { x: x + LOOP.half, y: y + LOOP.depth };
  return [
    { from: { x, y }, to: left },
    { from: left, to: right },
    { from: right, to: { x, y } },
  ];
}
