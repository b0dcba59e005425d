import { addTo, keptFor } from "../base/index.ts";
import type { Harness, Zone } from "../harness-model/index.ts";
import { findLayoutNodes, type LayoutNodes } from "./layout-nodes.ts";
import { thingKey } from "./wire-ends.ts";
import { along, distance, type XY } from "./xy.ts";

/** Room between things at one place, in drawing units. */
const BESIDE = 40;
/** How the keys of open ends begin. */
const OPEN_END = thingKey({ type: "open-end", id: "" });
/** Room around things inside the box of their component. */
const BOX_MARGIN = 24;

/**
 * Lays a machine out as points and lines: places, connectors, studs, splices, bundles, boxes of components, outlines of zones. Only what is
 * fitted is drawn. Points come from the document; where it has none the bundles are laid out as a tree, always the same way.
 *
 * @returns The layout; the same object when asked again.
 */
export const layoutHarness = keptFor((harness: Harness): Layout => {
  const spots = findLayoutNodes(harness);
  const items = new Map<string, DrawnItem>();
  for (const item of placeThings(harness, spots)) items.set(thingKey(item), item);
  const bundles = drawBundles(harness, spots, items);
  const bundleById = new Map(bundles.map((bundle) => [bundle.id, bundle]));
  for (const splice of placeSplices(harness, spots)) items.set(thingKey(splice), splice);
  const drawn = [...items.values()];
  const zones = zoneOutlines(harness.document.zones, drawn);
  const places = drawPlaces(harness, spots, bundles);
  const layout: Layout = {
    places,
    connectors: drawn.filter((item) => item.type === "connector"),
    terminalStuds: drawn.filter((item) => item.type === "stud"),
    splices: drawn.filter((item) => item.type === "splice"),
    openEnds: drawn.filter((item) => item.type === "open-end"),
    bundles,
    components: drawComponents(harness, drawn),
    zones,
    bounds: boundsOf([...places, ...drawn, ...zones.flatMap((zone) => zone.outline)]),
    items,
    placeById: new Map(places.map((place) => [place.id, place])),
    bundleById,
  };
  return layout;
});

function placeThings(harness: Harness, spots: LayoutNodes): readonly DrawnItem[] {
  const { connectors, terminalStuds, splices } = harness.fitted;
  const items: Omit<DrawnItem, "x" | "y">[] = [];
  for (const { id, label, kind, component, zone } of connectors.values())
    items.push({ type: "connector", id, label, sort: kind, ...given({ component, zone }) });
  for (const { id, label, role, component, zone } of terminalStuds.values())
    items.push({ type: "stud", id, label, sort: role, ...given({ component, zone }) });
  for (const { id, label, zone, at } of splices.values())
    if (!at) items.push({ type: "splice", id, label: label ?? id, sort: "splice", ...given({ zone }) });
  for (const key of spots.ofItem.keys()) {
    if (!key.startsWith(OPEN_END)) continue;
    items.push({ type: "open-end", id: key.slice(OPEN_END.length), label: "Far end not in the data", sort: "open" });
  }
  const atSpot = groupBy(items, (item) => spots.ofItem.get(thingKey(item)) ?? "");
  return [...atSpot].flatMap(([spot, group]) => setBeside(spot, group, spots));
}

/** Things at one place stand in columns of up to six around it. */
function setBeside(
  spot: string,
  group: readonly Omit<DrawnItem, "x" | "y">[],
  spots: LayoutNodes,
): readonly DrawnItem[] {
  const point = spots.points.get(spot) ?? { x: 0, y: 0 };
  const rows = Math.min(6, group.length);
  const columns = Math.ceil(group.length / rows);
  return group.map((item, at) => {
    const column = Math.floor(at / rows);
    const inColumn = Math.min(rows, group.length - column * rows);
    const x = point.x + (column - (columns - 1) / 2) * BESIDE * 2;
    const y = point.y + ((at % rows) - (inColumn - 1) / 2) * BESIDE;
    return { ...item, x, y, ...(spot !== thingKey(item) && { place: spot }) };
  });
}

function drawPlaces(harness: Harness, spots: LayoutNodes, bundles: readonly DrawnBundle[]): readonly DrawnPlace[] {
  const counts = new Map<string, number>();
  for (const bundle of bundles)
    if (bundle.kind === "segment") for (const end of bundle.ends) counts.set(end, (counts.get(end) ?? 0) + 1);
  return harness.document.topologyNodes.flatMap(({ id, label }) => {
    const point = spots.points.get(id);
    return point ? [{ id, label: label ?? id, bundles: counts.get(id) ?? 0, ...point }] : [];
  });
}

function drawComponents(harness: Harness, items: readonly DrawnItem[]): readonly DrawnComponent[] {
  const groups = groupBy(items, (item) => item.component);
  return [...harness.fitted.components.values()].flatMap(({ id, label, kind }) => {
    const own = groups.get(id) ?? [];
    if (own.length === 0) return [];
    const { x, y, width, height } = boundsOf(own);
    const box = { x: x + width / 2, y: y + height / 2, width: width + 2 * BOX_MARGIN, height: height + 2 * BOX_MARGIN };
    return [{ id, label, sort: kind, ...box, items: own.map(thingKey) }];
  });
}

function boundsOf(points: readonly XY[]): Bounds {
  let [left, top, right, bottom] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const { x, y } of points) {
    [left, top] = [Math.min(left, x), Math.min(top, y)];
    [right, bottom] = [Math.max(right, x), Math.max(bottom, y)];
  }
  return points.length === 0
    ? { x: 0, y: 0, width: 0, height: 0 }
    : { x: left, y: top, width: right - left, height: bottom - top };
}

/** Least room between splices on one bundle, in drawing units. */
const SPLICE_GAP = 24;

/** Splices sit on their segment at their share of its length, pushed apart where they would cover each other. */
function placeSplices(harness: Harness, spots: LayoutNodes): readonly DrawnItem[] {
  const located = [...harness.fitted.splices.values()].flatMap((splice) => {
    const segment = harness.segments.get(splice.at?.segment ?? "");
    if (!splice.at || !segment) return [];
    const share = Math.min(1, Math.max(0, splice.at.offsetMm / Math.max(1, segment.lengthMm)));
    return [{ splice, segment, share: splice.at.from === segment.from ? share : 1 - share }];
  });
  const onSegment = groupBy(located, ({ segment }) => segment);
  return [...onSegment].flatMap(([segment, group]) => {
    const from = spots.points.get(segment.from) ?? { x: 0, y: 0 };
    const to = spots.points.get(segment.to) ?? from;
    const gap = Math.min(SPLICE_GAP / Math.max(1, distance(from, to)), 0.9 / group.length);
    const sorted = group.toSorted((a, b) => a.share - b.share);
    const shares = pushApart(
      sorted.map(({ share }) => share),
      gap,
    );
    return sorted.map(({ splice }, at): DrawnItem => {
      const point = along(from, to, shares[at] ?? 0.5);
      const label = splice.label ?? splice.id;
      return { type: "splice", id: splice.id, label, sort: "splice", ...given({ zone: splice.zone }), ...point };
    });
  });
}

function pushApart(shares: readonly number[], gap: number): readonly number[] {
  const pushed: number[] = [];
  for (const share of shares) pushed.push(Math.max(share, gap / 2, (pushed.at(-1) ?? -1) + gap));
  let most = 1 - gap / 2;
  return pushed
    .toReversed()
    .map((share) => {
      const fitted = Math.min(share, most);
      most = fitted - gap;
      return fitted;
    })
    .reverse();
}

/** Room between a thing and the outline of its zone, in drawing units, and corners of the round around each thing. */
const MARGIN = 44;
const CORNERS = 16;

/** An outline around the things of each zone: the convex hull of a round about each. Zones with nothing in them are left out. */
function zoneOutlines(zones: readonly Zone[], items: readonly DrawnItem[]): readonly DrawnZone[] {
  const inZone = groupBy(items, (item) => item.zone);
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

/** A place of the harness: a branch, or an end where something sits. */
interface DrawnPlace extends XY {
  readonly id: string;
  readonly label: string;
  /** How many bundles meet here. */
  readonly bundles: number;
}

/** A connector, stud or splice, one point each; or where the wires of one of them go on to a far end that is not in the data. */
export interface DrawnItem extends XY {
  readonly type: "connector" | "stud" | "splice" | "open-end";
  readonly id: string;
  readonly label: string;
  /** Kind of connector or role of a stud; `splice` for splices, `open` for open ends. */
  readonly sort: string;
  readonly component?: string;
  readonly zone?: string;
  /** The place it sits at; a splice sits on a bundle. */
  readonly place?: string;
}

/** A stretch of harness as a straight line. Wires without a route make a direct bundle between the two things they join. */
interface DrawnBundle {
  readonly id: string;
  readonly kind: "segment" | "direct";
  /** Keys of its ends: ids of places, or of the things of a direct bundle. */
  readonly ends: readonly [string, string];
  /** The ends as points, the one nearer the middle of the machine first, so that lanes keep their side from bundle to bundle. */
  readonly from: XY;
  readonly to: XY;
  readonly lengthMm?: number;
  readonly zone?: string;
  /** The fitted wires in it. */
  readonly wires: readonly string[];
}

/** A component: the box around its connectors and studs. */
interface DrawnComponent extends XY {
  readonly id: string;
  readonly label: string;
  readonly sort: string;
  readonly width: number;
  readonly height: number;
  readonly items: readonly string[];
}

/** A zone of the machine: a soft outline around what lies in it. */
export interface DrawnZone {
  readonly id: string;
  readonly label: string;
  readonly outline: readonly XY[];
}

/** A rectangle of the drawing. */
export interface Bounds {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A whole machine as points and lines. */
export interface Layout {
  readonly places: readonly DrawnPlace[];
  readonly connectors: readonly DrawnItem[];
  readonly terminalStuds: readonly DrawnItem[];
  readonly splices: readonly DrawnItem[];
  readonly openEnds: readonly DrawnItem[];
  readonly bundles: readonly DrawnBundle[];
  readonly components: readonly DrawnComponent[];
  readonly zones: readonly DrawnZone[];
  readonly bounds: Bounds;
  /** Things by `connector A1.X1`, `stud G2+`, `splice SP1`. */
  readonly items: ReadonlyMap<string, DrawnItem>;
  readonly placeById: ReadonlyMap<string, DrawnPlace>;
  readonly bundleById: ReadonlyMap<string, DrawnBundle>;
}

/** The bundles that hold fitted wires, each pointing away from the middle of the machine. */
function drawBundles(
  harness: Harness,
  spots: LayoutNodes,
  items: ReadonlyMap<string, DrawnItem>,
): readonly DrawnBundle[] {
  const bundles: DrawnBundle[] = [];
  for (const { id, from, to, lengthMm, zone } of harness.document.segments) {
    const wires = spots.wiresIn.get(id);
    const a = spots.points.get(from);
    const b = spots.points.get(to);
    if (wires && a && b)
      bundles.push({ id, kind: "segment", ends: [from, to], from: a, to: b, lengthMm, ...given({ zone }), wires });
  }
  for (const { id, items: ends, wires, lengthMm } of spots.runs) {
    const a = items.get(ends[0]);
    const b = items.get(ends[1]);
    if (a && b)
      bundles.push({
        id,
        kind: "direct",
        ends,
        from: { x: a.x, y: a.y },
        to: { x: b.x, y: b.y },
        ...given({ lengthMm }),
        wires,
      });
  }
  return outwards(bundles);
}

/** Turns every bundle to point away from the spot where most bundles meet. */
function outwards(bundles: readonly DrawnBundle[]): readonly DrawnBundle[] {
  const at = new Map<string, DrawnBundle[]>();
  for (const bundle of bundles) for (const end of bundle.ends) at.set(end, [...(at.get(end) ?? []), bundle]);
  const depth = new Map<string, number>();
  const roots = [...at].sort(([, a], [, b]) => b.length - a.length).map(([spot]) => spot);
  for (const root of roots) {
    if (depth.has(root)) continue;
    depth.set(root, 0);
    const order = [root];
    for (const spot of order) {
      for (const end of (at.get(spot) ?? []).flatMap((bundle) => bundle.ends)) {
        if (depth.has(end)) continue;
        depth.set(end, (depth.get(spot) ?? 0) + 1);
        order.push(end);
      }
    }
  }
  return bundles.map((bundle) => {
    const [first, second] = bundle.ends;
    const isOutwards = (depth.get(first) ?? 0) <= (depth.get(second) ?? 0);
    return isOutwards ? bundle : { ...bundle, ends: [second, first], from: bundle.to, to: bundle.from };
  });
}

type Given<Values> = { readonly [Key in keyof Values]?: Exclude<Values[Key], undefined> };

/** The values that are there: an optional member is left out, not set to undefined. */
function given<Values extends object>(values: Values): Given<Values> {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as Given<Values>;
}

/** The values of a list by a key of each, in the order they come. */
function groupBy<Value, Key>(
  values: readonly Value[],
  keyOf: (value: Value) => Key,
): ReadonlyMap<Key, readonly Value[]> {
  const groups = new Map<Key, Value[]>();
  for (const value of values) {
    const key = keyOf(value);
    addTo(groups, key, value);
  }
  return groups;
}
