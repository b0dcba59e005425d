import type { Rect, ShapeGroup } from "./shapes.ts";

/** How far the marker reaches to both sides of a line, in px. */
const REACH = 8.5;

/**
 * The ground of the marker of a thing: along a wire, a line or a bar; around a symbol, a pin or a gate. It lies under the thing.
 *
 * @param group The shapes of the thing.
 * @returns Rectangles; none for a box or an outline, which other things stand in.
 */
export function markerRects({ kind, shapes, blocks }: ShapeGroup): readonly Rect[] {
  if (kind === "box" || kind === "outline" || kind === "note" || kind === "link") return [];
  const lines = shapes.flatMap((shape): Rect[] => {
    if (shape.kind === "wire") {
      const { from, to } = shape;
      return [{ x0: from.x - REACH, x1: to.x + REACH, y0: from.y, y1: to.y }];
    }
    const isLine = shape.kind === "polyline" && shape.points.length === 2 && shape.stroke === "ink" && !shape.dash;
    const [from, to] = isLine && (kind === "line" || kind === "joint") ? shape.points : [];
    if (!from || !to) return [];
    const isUpright = from.x === to.x;
    return [
      isUpright
        ? { x0: from.x - REACH, x1: from.x + REACH, y0: from.y, y1: to.y }
        : { x0: from.x, x1: to.x, y0: from.y - REACH, y1: from.y + REACH },
    ];
  });
  const [first] = blocks;
  if (lines.length > 0 || !first) return lines;
  return [{ x0: first.x0 - 3, y0: first.y0 - 3, x1: first.x1 + 3, y1: first.y1 + 3 }];
}
