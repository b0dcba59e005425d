import type { Harness } from "../harness-model/index.ts";
import { layoutHarness, type DrawnItem, type Layout } from "./layout-harness.ts";
import { litBundles, type HighlightedWire } from "./highlighted-bundles.ts";
import { placeNames, type NamedPoint, type NameSide } from "./place-names.ts";
import { shortName } from "./short-name.ts";
import { svgElement, svgPoints, svgText } from "./svg-text.ts";
import { thingKey } from "./wire-ends.ts";
import type { XY } from "./xy.ts";

/** What is to be shown on a written drawing. */
interface HarnessSvgOptions {
  /** Wires that are drawn one by one over their bundles, each with its id and colour letters. */
  readonly lit?: Iterable<string>;
}

/** Colours of the drawing on white paper. */
const INK = { line: "#182024", quiet: "#4d5962", bundle: "#a8adab", zone: "#ebe6d8", zoneText: "#5f5a4b" } as const;
const MARGIN = 60;
const FOOT = 40;
const BOX_RIM = 28;

/**
 * Writes the drawing of a harness as SVG: zones, boxes of components, bundles, and every connector, stud and splice with its id. Where
 * names need room, things stand farther apart. Nothing is to scale. Colour is never the only carrier: a lit wire has its letters beside it.
 *
 * @returns The text of an SVG file with a line end at its end; the same harness gives the same text. A thing whose name has no room even so
 *   has it in its title, which shows when the pointer rests on it.
 *
 * Source: Scalable Vector Graphics 1.1, W3C.
 */
export function writeHarnessSvg(harness: Harness, { lit = [] }: HarnessSvgOptions = {}): string {
  const layout = layoutHarness(harness);
  const { wires } = litBundles(harness, lit);
  const names = wires.map(({ wire, mark, middle }): TakenText => ({
    ...middle,
    text: `${shortName(wire)} ${mark.letters}`,
  }));
  const zoneNames = layout.zones.map(({ label, outline }): TakenText => ({ ...topOf(outline), text: label }));
  const { spread, sides } = placeSvgNames(layout, [...names, ...zoneNames]);
  const at = ({ x, y }: XY): XY => ({ x: x * spread, y: y * spread });
  const { machine } = harness.document.about;
  const title = `${machine}, build ${harness.build.id}`;
  const box = frame(layout, spread);
  const { x, y, width, height } = box;
  const foot = { x: x + MARGIN / 2, y: y + height - FOOT / 2, "font-size": SVG_SIZES.font, fill: INK.quiet };
  const lines = [
    svgElement("title", {}, [svgText(title)]),
    svgElement("rect", { x, y, width, height, fill: "#ffffff" }),
    ...group("zones", { fill: INK.zone, "fill-opacity": "0.55" }, zoneLines(layout, at)),
    ...group("boxes", { fill: "none", stroke: INK.bundle, "stroke-width": 1 }, boxLines(layout, at)),
    ...group("bundles", { fill: "none", stroke: INK.bundle, "stroke-linecap": "round" }, bundleLines(layout, at)),
    ...group(
      "wires",
      { fill: "none", "stroke-linejoin": "round" },
      wires.flatMap((wire) => wireLines(wire, at)),
    ),
    ...group("things", { fill: "#ffffff", stroke: INK.quiet, "stroke-width": 2 }, thingLines(layout, at)),
    ...group(
      "zone-names",
      textStyle(INK.zoneText, "middle"),
      zoneNames.map((name) => textAt(at(name), name.text)),
    ),
    ...group("names", textStyle(INK.line), nameLines(layout, at, sides)),
    ...group(
      "wire-names",
      { ...textStyle(INK.line, "middle"), "font-weight": "bold" },
      names.map((name) => textAt(at(name), name.text)),
    ),
    svgElement("text", foot, [svgText(`${title}. Not to scale.`)]),
  ];
  const root = svgElement(
    "svg",
    {
      ...{ xmlns: "http://www.w3.org/2000/svg", viewBox: [x, y, width, height].map(Math.round).join(" ") },
      ...{ width: Math.round(width), height: Math.round(height), "font-family": "sans-serif", role: "img" },
    },
    [`\n${lines.join("\n")}\n`],
  );
  return `<?xml version="1.0" encoding="UTF-8"?>\n${root}\n`;
}

function frame({ bounds }: Layout, spread: number): { x: number; y: number; width: number; height: number } {
  return {
    x: Math.floor(bounds.x * spread - MARGIN),
    y: Math.floor(bounds.y * spread - MARGIN),
    width: Math.ceil(bounds.width * spread + 2 * MARGIN),
    height: Math.ceil(bounds.height * spread + 2 * MARGIN + FOOT),
  };
}

function group(
  id: string,
  style: Readonly<Record<string, string | number>>,
  lines: readonly string[],
): readonly string[] {
  return lines.length === 0 ? [] : [svgElement("g", { id, ...style }, [`\n${lines.join("\n")}\n`])];
}

function topOf(outline: readonly XY[]): XY {
  const top = Math.min(...outline.map((point) => point.y));
  const [left, right] = [Math.min(...outline.map(({ x }) => x)), Math.max(...outline.map(({ x }) => x))];
  return { x: (left + right) / 2, y: top };
}

function zoneLines(layout: Layout, at: (point: XY) => XY): readonly string[] {
  return layout.zones.map(({ label, outline }) =>
    svgElement("polygon", { points: svgPoints(outline.map(at)) }, [svgElement("title", {}, [svgText(label)])]),
  );
}

/** Boxes keep their rim however far their things are spread. */
function boxLines(layout: Layout, at: (point: XY) => XY): readonly string[] {
  return layout.components.map(({ id, label, items }) => {
    const points = items.flatMap((key) => layout.items.get(key) ?? []).map(at);
    const [xs, ys] = [points.map((point) => point.x), points.map((point) => point.y)];
    const [left, top] = [Math.min(...xs) - BOX_RIM, Math.min(...ys) - BOX_RIM];
    const [width, height] = [Math.max(...xs) + BOX_RIM - left, Math.max(...ys) + BOX_RIM - top];
    return svgElement("rect", { x: left, y: top, width, height, rx: 6 }, [titled(id, label)]);
  });
}

function bundleLines(layout: Layout, at: (point: XY) => XY): readonly string[] {
  const stubs = [...layout.items.values()].flatMap((item) => {
    const place = layout.placeById.get(item.place ?? "");
    if (!place || (place.x === item.x && place.y === item.y)) return [];
    return [svgElement("polyline", { points: svgPoints([at(place), at(item)]), "stroke-width": 2 })];
  });
  const bundles = layout.bundles.map(({ id, kind, from, to, lengthMm, wires }) => {
    const points = svgPoints([at(from), at(to)]);
    const length = lengthMm === undefined ? "" : `, ${Math.round(lengthMm)} mm`;
    const label = `${wires.length} wire${wires.length === 1 ? "" : "s"}${length}`;
    const style = kind === "direct" ? { "stroke-dasharray": "8 5" } : {};
    const thick = Math.min(14, 2 + Math.sqrt(wires.length) * 2);
    return svgElement("polyline", { points, "stroke-width": thick, ...style }, [titled(id, label)]);
  });
  return [...stubs, ...bundles];
}

function wireLines({ wire, mark, points }: HighlightedWire, at: (point: XY) => XY): readonly string[] {
  const way = svgPoints(points.map(at));
  const lines = [
    svgElement("polyline", { points: way, stroke: INK.line, "stroke-width": 8 }, [titled(wire, mark.name)]),
    svgElement("polyline", { points: way, stroke: mark.base ?? "#ffffff", "stroke-width": 5 }),
  ];
  if (mark.tracer === undefined) return lines;
  const dash = { "stroke-width": 2.2, "stroke-dasharray": "12 9" };
  return [...lines, svgElement("polyline", { points: way, stroke: mark.tracer, ...dash })];
}

/** Letters with a white rim, so that they can be read over lines. */
function textStyle(fill: string, anchor?: string): Readonly<Record<string, string | number>> {
  const rim = { stroke: "#ffffff", "stroke-width": 3, "paint-order": "stroke" };
  return { fill, ...rim, "font-size": SVG_SIZES.font, ...(anchor === undefined ? {} : { "text-anchor": anchor }) };
}

/** Sizes of signs and letters of a written drawing, in its units. They stay as they are however far things are spread. */
const SVG_SIZES = { letter: 8.2, line: 15, font: 13, halfWidth: 11, halfHeight: 8 } as const;

/** How far things are spread, at most, to make room for names. */
const SPREADS = [1, 1.5, 2, 3, 4, 6] as const;

/** A text on the drawing that names must not cover. */
interface TakenText extends XY {
  readonly text: string;
}

/** Where names stand, and how far the drawing is spread so that they have room. */
interface SvgNames {
  readonly spread: number;
  /** The side of each name, by key of the thing. */
  readonly sides: ReadonlyMap<string, NameSide>;
}

/**
 * Finds the smallest spread at which every thing of a drawing has room for its name; the widest one if none is enough.
 *
 * @param taken Texts that are written anyway, at the points of the layout.
 */
function placeSvgNames(layout: Layout, taken: readonly TakenText[]): SvgNames {
  const items = [...layout.items];
  let best: SvgNames = { spread: 1, sides: new Map() };
  for (const spread of SPREADS) {
    const sides = placeNames(
      items.map(([, item]) => namedPoint(item, spread)),
      taken.map(({ x, y, text }) => {
        return { x: x * spread, y: y * spread, width: widthOf(text) + 6, height: SVG_SIZES.line + 4 };
      }),
    );
    best = { spread, sides: new Map(items.map(([key], at) => [key, sides[at] ?? "none"])) };
    if (!sides.includes("none")) break;
  }
  return best;
}

function namedPoint(item: DrawnItem, spread: number): NamedPoint {
  const { line, halfWidth, halfHeight } = SVG_SIZES;
  return {
    x: item.x * spread,
    y: item.y * spread,
    width: widthOf(shortName(item.id)),
    height: line,
    halfWidth,
    halfHeight,
  };
}

function widthOf(text: string): number {
  return [...text].length * SVG_SIZES.letter;
}

/** Connectors are boxes, studs hexagons, splices diamonds, open ends triangles. */
function thingLines(layout: Layout, at: (point: XY) => XY): readonly string[] {
  return [...layout.items.values()].map((item) => {
    const point = at(item);
    const title = titled(item.id, item.label);
    if (item.type === "connector") return svgElement("rect", { ...corner(point, 11, 8), rx: 3 }, [title]);
    const corners = item.type === "stud" ? 6 : item.type === "open-end" ? 3 : 4;
    const around = Array.from({ length: corners }, (_, each) => {
      const angle = (2 * Math.PI * each) / corners;
      return { x: point.x + 9 * Math.cos(angle), y: point.y + 8 * Math.sin(angle) };
    });
    return svgElement("polygon", { points: svgPoints(around) }, [title]);
  });
}

/** Names of connectors, studs and splices, each on the side that was found for it. */
function nameLines(layout: Layout, at: (point: XY) => XY, sides: ReadonlyMap<string, NameSide>): readonly string[] {
  return [...layout.items.values()].flatMap((item) => {
    const side = sides.get(thingKey(item)) ?? "none";
    return side === "none" ? [] : [nameAt(at(item), item, side)];
  });
}

function nameAt({ x, y }: XY, item: DrawnItem, side: Exclude<NameSide, "none">): string {
  const id = shortName(item.id);
  const { halfWidth, halfHeight, font } = SVG_SIZES;
  const middle = y + font * 0.35;
  switch (side) {
    case "below":
      return textAt({ x, y: y + halfHeight + font }, id, "middle");
    case "above":
      return textAt({ x, y: y - halfHeight - 4 }, id, "middle");
    case "right":
      return textAt({ x: x + halfWidth + 3, y: middle }, id, "start");
    case "left":
      return textAt({ x: x - halfWidth - 3, y: middle }, id, "end");
  }
}

/** A text at a point. */
function textAt({ x, y }: XY, text: string, anchor?: string): string {
  return svgElement("text", { x, y, ...(anchor === undefined ? {} : { "text-anchor": anchor }) }, [svgText(text)]);
}

/** What shows when the pointer rests on an element. */
function titled(id: string, label: string): string {
  return svgElement("title", {}, [svgText(label === id ? id : `${id} ${label}`)]);
}

function corner({ x, y }: XY, halfWidth: number, halfHeight: number): Readonly<Record<string, number>> {
  return { x: x - halfWidth, y: y - halfHeight, width: 2 * halfWidth, height: 2 * halfHeight };
}
