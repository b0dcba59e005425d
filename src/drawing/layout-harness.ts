import type { Harness } from "../model/index.ts";
import { drawBundles } from "./draw-bundles.ts";
import { given } from "./given.ts";
import { groupBy } from "./group-by.ts";
import type { Bounds, DrawnBundle, DrawnComponent, DrawnPlace, DrawnThing, Layout } from "./layout.ts";
import { placeSplices } from "./place-splices.ts";
import { findSpots, type Spots } from "./spots.ts";
import { thingKey } from "./wire-ends.ts";
import type { XY } from "./xy.ts";
import { zoneOutlines } from "./zone-outlines.ts";

// Worked out once a harness; a harness never changes.
const layouts = new WeakMap<Harness, Layout>();

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
 * @param harness The harness.
 * @returns The layout; the same object when asked again.
 */
export function layoutHarness(harness: Harness): Layout {
  const known = layouts.get(harness);
  if (known) return known;
  const spots = findSpots(harness);
  const things = new Map<string, DrawnThing>();
  for (const thing of placeThings(harness, spots)) things.set(thingKey(thing), thing);
  const bundles = drawBundles(harness, spots, things);
  const bundleById = new Map(bundles.map((bundle) => [bundle.id, bundle]));
  for (const splice of placeSplices(harness, spots)) things.set(thingKey(splice), splice);
  const drawn = [...things.values()];
  const zones = zoneOutlines(harness.document.zones, drawn);
  const places = drawPlaces(harness, spots, bundles);
  const layout: Layout = {
    places,
    connectors: drawn.filter((thing) => thing.type === "connector"),
    studs: drawn.filter((thing) => thing.type === "stud"),
    splices: drawn.filter((thing) => thing.type === "splice"),
    openEnds: drawn.filter((thing) => thing.type === "open-end"),
    bundles,
    components: drawComponents(harness, drawn),
    zones,
    bounds: boundsOf([...places, ...drawn, ...zones.flatMap((zone) => zone.outline)]),
    things,
    placeById: new Map(places.map((place) => [place.id, place])),
    bundleById,
  };
  layouts.set(harness, layout);
  return layout;
}

function placeThings(harness: Harness, spots: Spots): readonly DrawnThing[] {
  const { connectors, studs, splices } = harness.fitted;
  const things: Omit<DrawnThing, "x" | "y">[] = [];
  for (const { id, label, kind, component, zone } of connectors.values())
    things.push({ type: "connector", id, label, sort: kind, ...given({ component, zone }) });
  for (const { id, label, role, component, zone } of studs.values())
    things.push({ type: "stud", id, label, sort: role, ...given({ component, zone }) });
  for (const { id, label, zone, at } of splices.values())
    if (!at) things.push({ type: "splice", id, label: label ?? id, sort: "splice", ...given({ zone }) });
  for (const key of spots.ofThing.keys()) {
    if (!key.startsWith(OPEN_END)) continue;
    things.push({ type: "open-end", id: key.slice(OPEN_END.length), label: "Far end not in the data", sort: "open" });
  }
  const atSpot = groupBy(things, (thing) => spots.ofThing.get(thingKey(thing)) ?? "");
  return [...atSpot].flatMap(([spot, group]) => setBeside(spot, group, spots));
}

/** Things at one place stand in columns of up to six around it. */
function setBeside(spot: string, group: readonly Omit<DrawnThing, "x" | "y">[], spots: Spots): readonly DrawnThing[] {
  const point = spots.points.get(spot) ?? { x: 0, y: 0 };
  const rows = Math.min(6, group.length);
  const columns = Math.ceil(group.length / rows);
  return group.map((thing, at) => {
    const column = Math.floor(at / rows);
    const inColumn = Math.min(rows, group.length - column * rows);
    const x = point.x + (column - (columns - 1) / 2) * BESIDE * 2;
    const y = point.y + ((at % rows) - (inColumn - 1) / 2) * BESIDE;
    return { ...thing, x, y, ...(spot !== thingKey(thing) && { place: spot }) };
  });
}

function drawPlaces(harness: Harness, spots: Spots, bundles: readonly DrawnBundle[]): readonly DrawnPlace[] {
  const counts = new Map<string, number>();
  for (const bundle of bundles)
    if (bundle.kind === "segment") for (const end of bundle.ends) counts.set(end, (counts.get(end) ?? 0) + 1);
  return harness.document.places.flatMap(({ id, label }) => {
    const point = spots.points.get(id);
    return point ? [{ id, label: label ?? id, bundles: counts.get(id) ?? 0, ...point }] : [];
  });
}

function drawComponents(harness: Harness, things: readonly DrawnThing[]): readonly DrawnComponent[] {
  const groups = groupBy(things, (thing) => thing.component);
  return [...harness.fitted.components.values()].flatMap(({ id, label, kind }) => {
    const own = groups.get(id) ?? [];
    if (own.length === 0) return [];
    const { x, y, width, height } = boundsOf(own);
    const box = { x: x + width / 2, y: y + height / 2, width: width + 2 * BOX_MARGIN, height: height + 2 * BOX_MARGIN };
    return [{ id, label, sort: kind, ...box, things: own.map(thingKey) }];
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
