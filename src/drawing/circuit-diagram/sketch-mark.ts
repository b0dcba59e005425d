import type { Harness } from "../../harness-model/index.ts";
import type { PointMark, SketchStyle } from "./diagram-options.ts";
import { NOTHING, SIZE, type Written } from "./sketch.ts";
import type { Rect, Shape } from "./shapes.ts";
import { textWidth } from "./text-width.ts";

/** The mark of the first of some points that has one. */
export function markAt(
  harness: Harness,
  { marks }: SketchStyle,
  nodes: readonly number[],
  item: string,
): PointMark | undefined {
  const keys = [item, ...nodes.flatMap((node) => harness.nodes[node]?.key ?? [])];
  for (const key of keys) {
    const mark = marks.get(key);
    if (mark) return mark;
  }
  return undefined;
}

/**
 * Draws what is written to the left of a point: a filled pill with a probe tip where a meter may go, a plain number elsewhere.
 *
 * @param right Its right edge.
 * @param top Its upper edge.
 */
export function drawMark(mark: PointMark | undefined, right: number, top: number): Written {
  if (!mark) return NOTHING;
  const width = textWidth(mark.text, "plain", SIZE.small);
  const height = SIZE.row + 2;
  const x0 = right - width - (mark.permitted ? 28 : 4);
  const box: Rect = { x0, y0: top, x1: right, y1: top + height };
  const text: Shape = {
    ...{
      kind: "text",
      at: { x: right - width - (mark.permitted ? 9 : 0), y: top + 13 },
      text: mark.text,
      face: "plain",
    },
    ...{ size: SIZE.small, tone: mark.permitted ? "on-pill" : "quiet", width },
  };
  if (!mark.permitted) return { shapes: [text], blocks: [box] };
  const pill: Shape = { kind: "rect", box, stroke: "none", width: 0, fill: "pill", round: height / 2 };
  const tip: Shape = {
    ...{ kind: "polyline", stroke: "paper", width: 2 },
    points: [
      { x: x0 + 7, y: top + 5 },
      { x: x0 + 10.5, y: top + 13 },
      { x: x0 + 14, y: top + 5 },
    ],
  };
  return { shapes: [pill, tip, text], blocks: [box] };
}
