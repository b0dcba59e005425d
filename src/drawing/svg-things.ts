import type { DrawnThing, Layout } from "./layout.ts";
import type { NameSide } from "./place-names.ts";
import { shortName } from "./short-name.ts";
import { svgElement, svgPoints, svgText } from "./svg-elements.ts";
import { SVG_SIZES } from "./svg-names.ts";
import { thingKey } from "./wire-ends.ts";
import type { XY } from "./xy.ts";

/** Connectors are boxes, studs hexagons, splices diamonds, open ends triangles. */
export function thingLines(layout: Layout, at: (point: XY) => XY): readonly string[] {
  return [...layout.things.values()].map((thing) => {
    const point = at(thing);
    const title = titled(thing.id, thing.label);
    if (thing.type === "connector") return svgElement("rect", { ...corner(point, 11, 8), rx: 3 }, [title]);
    const corners = thing.type === "stud" ? 6 : thing.type === "open-end" ? 3 : 4;
    const around = Array.from({ length: corners }, (_, each) => {
      const angle = (2 * Math.PI * each) / corners;
      return { x: point.x + 9 * Math.cos(angle), y: point.y + 8 * Math.sin(angle) };
    });
    return svgElement("polygon", { points: svgPoints(around) }, [title]);
  });
}

/** Names of connectors, studs and splices, each on the side that was found for it. */
export function nameLines(
  layout: Layout,
  at: (point: XY) => XY,
  sides: ReadonlyMap<string, NameSide>,
): readonly string[] {
  return [...layout.things.values()].flatMap((thing) => {
    const side = sides.get(thingKey(thing)) ?? "none";
    return side === "none" ? [] : [nameAt(at(thing), thing, side)];
  });
}

function nameAt({ x, y }: XY, thing: DrawnThing, side: Exclude<NameSide, "none">): string {
  const id = shortName(thing.id);
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
export function textAt({ x, y }: XY, text: string, anchor?: string): string {
  return svgElement("text", { x, y, ...(anchor === undefined ? {} : { "text-anchor": anchor }) }, [svgText(text)]);
}

/** What shows when the pointer rests on an element. */
export function titled(id: string, label: string): string {
  return svgElement("title", {}, [svgText(label === id ? id : `${id} ${label}`)]);
}

function corner({ x, y }: XY, halfWidth: number, halfHeight: number): Readonly<Record<string, number>> {
  return { x: x - halfWidth, y: y - halfHeight, width: 2 * halfWidth, height: 2 * halfHeight };
}
