import type { ElementDefinition } from "cytoscape";
import { safeText } from "../../base/index.ts";
import {
  shortName,
  thingKey,
  type DrawnItem,
  type DrawnZone,
  type Layout,
  type HighlightedWire,
  type XY,
} from "../../drawing/index.ts";

/** Everything of a layout that is always drawn, as Cytoscape elements: bundles as edges, connectors, studs and splices as nodes. */
export function baseElements(layout: Layout): ElementDefinition[] {
  const items = [...layout.items.values()];
  return [
    ...layout.zones.map(zoneNode),
    ...layout.components
      .filter((box) => box.items.length > 1)
      .map((box): ElementDefinition => ({
        data: { id: `box ${box.id}`, label: safeText(`${box.id} ${box.label}`), width: box.width, height: box.height },
        position: { x: box.x, y: box.y },
        classes: "box",
      })),
    ...layout.places.map((place): ElementDefinition => ({
      data: { id: `place ${place.id}` },
      position: { x: place.x, y: place.y },
      classes: place.bundles > 2 ? "place branch" : "place",
    })),
    ...items.map((item): ElementDefinition => ({
      data: {
        id: thingKey(item),
        item: item.id,
        type: item.type,
        label: shortName(item.id),
        title: titleOf(layout, item),
      },
      position: { x: item.x, y: item.y },
      classes: `thing ${item.type} ${item.sort}`,
    })),
    ...layout.bundles.map((bundle): ElementDefinition => {
      const [source, target] = bundle.ends.map((end) => (bundle.kind === "segment" ? `place ${end}` : end));
      const width = Math.min(9, 3 + Math.sqrt(bundle.wires.length));
      return {
        data: { id: `bundle ${bundle.id}`, item: bundle.id, source: source ?? "", target: target ?? "", width },
        classes: `bundle ${bundle.kind}`,
      };
    }),
    ...items.flatMap((item): ElementDefinition[] => {
      const place = layout.placeById.get(item.place ?? "");
      if (!place || (place.x === item.x && place.y === item.y)) return [];
      return [
        {
          data: { id: `stub ${thingKey(item)}`, source: `place ${place.id}`, target: thingKey(item) },
          classes: "stub",
        },
      ];
    }),
  ];
}

/** What is written under an item once it is lit: the component's name for a device connector, else its own label. */
function titleOf(layout: Layout, item: DrawnItem): string {
  const component = item.sort === "device" ? layout.components.find((box) => box.id === item.component) : undefined;
  const label = safeText(component?.label ?? item.label);
  const name = shortName(item.id);
  return label === item.id ? name : `${name}\n${label.length > 34 ? `${label.slice(0, 33)}…` : label}`;
}

function zoneNode(zone: DrawnZone): ElementDefinition {
  const xs = zone.outline.map((point) => point.x);
  const ys = zone.outline.map((point) => point.y);
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  const [top, bottom] = [Math.min(...ys), Math.max(...ys)];
  const [width, height] = [Math.max(1, right - left), Math.max(1, bottom - top)];
  const points = zone.outline.flatMap(({ x, y }) => [(2 * (x - left)) / width - 1, (2 * (y - top)) / height - 1]);
  return {
    data: {
      id: `zone ${zone.id}`,
      label: safeText(zone.label.replace(/[:,;(].*$/su, "").trim()),
      width,
      height,
      points: points.map((each) => each.toFixed(4)).join(" "),
    },
    position: { x: left + width / 2, y: top + height / 2 },
    classes: "zone",
  };
}

/** A traced wire as elements: two unseen ends, its line, and where it has a stripe a second, dashed line over it. */
export function wireElements(wire: HighlightedWire, classes: string): ElementDefinition[] {
  const [from, to] = [wire.points[0], wire.points.at(-1)];
  if (!from || !to) return [];
  // A line between two equal points has no direction to measure its corners from.
  const end = from.x === to.x && from.y === to.y ? { x: to.x + 0.5, y: to.y } : { x: to.x, y: to.y };
  const ends = [`from ${wire.wire}`, `to ${wire.wire}`];
  const data = {
    source: ends[0] ?? "",
    target: ends[1] ?? "",
    item: wire.wire,
    type: "wire",
    colour: wire.mark.base ?? "",
    tracer: wire.mark.tracer ?? "",
    ...cornersBetween(wire.points.slice(1, -1), from, end),
  };
  const shape = wire.points.length > 2 ? "bent" : "straight";
  return [
    { data: { id: ends[0] ?? "" }, position: { x: from.x, y: from.y }, classes: `anchor ${classes}` },
    { data: { id: ends[1] ?? "" }, position: end, classes: `anchor ${classes}` },
    { data: { ...data, id: `wire ${wire.wire}` }, classes: `wire ${shape} ${classes}` },
    ...(wire.mark.tracer
      ? [{ data: { ...data, id: `tracer ${wire.wire}` }, classes: `tracer ${shape} ${classes}` }]
      : []),
    {
      data: {
        id: `name ${wire.wire}`,
        item: wire.wire,
        type: "wire",
        label: `${shortName(wire.wire)} ${wire.mark.letters}`,
      },
      position: { ...wire.middle },
      classes: `name ${classes}`,
    },
  ];
}

/** Corners as Cytoscape wants them: shares along the straight line from end to end, and distances to its side. */
function cornersBetween(
  corners: readonly XY[],
  from: XY,
  to: XY,
): { readonly weights: string; readonly distances: string } {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const length = Math.hypot(dx, dy);
  const weights = corners.map(({ x, y }) => ((x - from.x) * dx + (y - from.y) * dy) / (length * length));
  const distances = corners.map(({ x, y }) => ((y - from.y) * dx - (x - from.x) * dy) / length);
  return {
    weights: weights.map((each) => each.toFixed(5)).join(" "),
    distances: distances.map((each) => each.toFixed(2)).join(" "),
  };
}
