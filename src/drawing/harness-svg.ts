import type { Harness } from "../model/index.ts";
import { layoutHarness } from "./layout-harness.ts";
import type { Layout } from "./layout.ts";
import { litBundles, type LitWire } from "./lit-bundles.ts";
import { shortName } from "./short-name.ts";
import { svgElement, svgPoints, svgText } from "./svg-elements.ts";
import { placeSvgNames, SVG_SIZES, type TakenText } from "./svg-names.ts";
import { nameLines, textAt, thingLines, titled } from "./svg-things.ts";
import type { XY } from "./xy.ts";

/** What is to be shown on a written drawing. */
export interface HarnessSvgOptions {
  /** Wires that are drawn one by one over their bundles, each with its id and colour letters. */
  readonly lit?: Iterable<string>;
}

/** Colours of the drawing on white paper. */
const INK = { line: "#182024", quiet: "#4d5962", bundle: "#a8adab", zone: "#ebe6d8", zoneText: "#5f5a4b" } as const;
const MARGIN = 60;
const FOOT = 40;
const BOX_RIM = 28;

/**
 * Writes the drawing of a harness as SVG: zones, boxes of components, bundles, and every connector, stud and splice with its id. Where names
 * need room, things stand farther apart. Nothing is to scale. Colour is never the only carrier: a lit wire has its letters beside it.
 *
 * @param harness A machine in one build.
 * @param options Wires to be lit.
 * @returns The text of an SVG file with a line end at its end; the same harness gives the same text. A thing whose name has no room even
 * so has it in its title, which shows when the pointer rests on it.
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
  return layout.components.map(({ id, label, things }) => {
    const points = things.flatMap((key) => layout.things.get(key) ?? []).map(at);
    const [xs, ys] = [points.map((point) => point.x), points.map((point) => point.y)];
    const [left, top] = [Math.min(...xs) - BOX_RIM, Math.min(...ys) - BOX_RIM];
    const [width, height] = [Math.max(...xs) + BOX_RIM - left, Math.max(...ys) + BOX_RIM - top];
    return svgElement("rect", { x: left, y: top, width, height, rx: 6 }, [titled(id, label)]);
  });
}

function bundleLines(layout: Layout, at: (point: XY) => XY): readonly string[] {
  const stubs = [...layout.things.values()].flatMap((thing) => {
    const place = layout.placeById.get(thing.place ?? "");
    if (!place || (place.x === thing.x && place.y === thing.y)) return [];
    return [svgElement("polyline", { points: svgPoints([at(place), at(thing)]), "stroke-width": 2 })];
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

function wireLines({ wire, mark, points }: LitWire, at: (point: XY) => XY): readonly string[] {
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
