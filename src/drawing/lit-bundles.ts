import type { Harness } from "../model/index.ts";
import { colourMark, type ColourMark } from "./colour-mark.ts";
import { layoutHarness } from "./layout-harness.ts";
import type { Layout } from "./layout.ts";
import { wireWay, type WayLeg } from "./wire-way.ts";
import { along, distance, moved, rightHand, type XY } from "./xy.ts";

/** A traced wire as a line of its own over its bundles. */
export interface LitWire {
  readonly wire: string;
  readonly mark: ColourMark;
  /** Corners of its line, two or more. */
  readonly points: readonly XY[];
  /** Where its name is best written. */
  readonly middle: XY;
  readonly bundles: readonly string[];
}

/** Which bundles carry which traced wires, and the wires as lines side by side. */
export interface LitBundles {
  readonly bundles: ReadonlyMap<string, readonly string[]>;
  readonly wires: readonly LitWire[];
}

/** Room between wires in one bundle, and the most that all wires of a bundle together may take, in drawing units. */
const LANE = 8;
const WIDEST = 64;

/**
 * Finds the bundles that traced wires run in, and draws each wire as a line beside the others in its bundles. A wire keeps its side
 * from one bundle to the next.
 *
 * @param harness The harness.
 * @param wires Ids of wires; what is not a fitted wire is passed over.
 */
export function litBundles(harness: Harness, wires: Iterable<string>): LitBundles {
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
  const lit = ways.map(({ wire, legs }): LitWire => {
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
  { leg, wire }: { readonly leg: WayLeg; readonly wire: string },
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
 * The place of a name: on the longest straight, each wire of a bundle at a share of its own, so that names beside each other do not
 * meet.
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
