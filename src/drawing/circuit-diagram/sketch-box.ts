import type { Harness, HarnessEdge } from "../../harness-model/index.ts";
import type { Box, BoxPin } from "./diagram-graph.ts";
import type { SketchContext } from "./sketch-thing.ts";
import { elementValue, shownId } from "./part-texts.ts";
import { drawMark, markAt } from "./sketch-mark.ts";
import { idRow, joinWritten, NOTHING, SIZE, wordRow, wrapText, writeRows, type Row, type Written } from "./sketch.ts";
import type { Rect, Shape } from "./shapes.ts";
import { drawInside, insideHeight, type PlacedPin } from "./sketch-inside.ts";
import { textWidth } from "./text-width.ts";

/** A box with its pins at their places, around the height of its upper edge. */
export interface BoxSketch extends Written {
  readonly box: Rect;
  readonly height: number;
}

/** Least width of a box, and how far it reaches beyond its outer pins. */
export const BOX = { least: 136, side: 20, pad: 9 } as const;

/** The texts of a box: id, name, value. */
function boxRows({ style, scope }: SketchContext, box: Box): readonly Row[] {
  const label = box.component?.label ?? box.connector?.label ?? "";
  const name = style.short ? wrapText(label, BOX.least - 2 * BOX.pad, 1) : wrapText(label, BOX.least - 2 * BOX.pad, 3);
  const [only, ...more] = elementsIn(scope.harness, box);
  const value = only && more.length === 0 ? elementValue(only.element) : undefined;
  const words = [...name, ...(value === undefined ? [] : [value])];
  const id: Row = { text: shownId(box.item.id), face: "mono", size: SIZE.boxId, tone: "accent" };
  return [id, ...words.map((text) => wordRow(text, true))];
}

function elementsIn(harness: Harness, box: Box): readonly Extract<HarnessEdge, { kind: "element" }>[] {
  return box.inside.flatMap((number) => {
    const edge = harness.edges[number];
    return edge?.kind === "element" ? [edge] : [];
  });
}

/** How far a pin of a box and its texts reach to the left and right of it; `inner`: what of it lies in the box. */
export function pinSides(
  context: SketchContext,
  box: Box,
  pin: BoxPin,
): { readonly left: number; readonly right: number; readonly inner: number } {
  const net = hasNets(box) ? textWidth(pin.net ?? "", "plain", SIZE.small) / 2 : 0;
  const name = textWidth(shownId(pin.name), "mono", SIZE.id) + 8;
  const mark = drawMark(markAt(context.scope.harness, context.style, pin.nodes, pin.item.id), -9, 0);
  const inner = Math.max(BOX.side, net + 5);
  return { inner, left: Math.max(inner, ...mark.blocks.map(({ x0 }) => -x0)), right: Math.max(inner, name) };
}

/** Parts have their inside in the place of net labels. */
function hasNets(box: Box): boolean {
  return box.inside.length === 0;
}

/** The width a box needs for its texts, in px; for a part with pins on both edges that is beside the pins. */
export function boxTextWidth(context: SketchContext, box: Box): number {
  const rows = boxRows(context, box);
  return Math.max(...rows.map((row) => textWidth(row.text, row.face, row.size))) + 2 * BOX.pad;
}

/**
 * Sketches a box.
 *
 * @param at Its pins at their places, from left to right, and its left and right edge.
 */
export function sketchBox(
  context: SketchContext,
  box: Box,
  at: { readonly pins: readonly PlacedPin[]; readonly x0: number; readonly x1: number },
): BoxSketch {
  const { pins, x0, x1 } = at;
  const rows = boxRows(context, box);
  const upper = pins.some(({ edge }) => edge === "upper");
  const lower = pins.some(({ edge }) => edge === "lower");
  const nets = hasNets(box);
  const net = SIZE.row + 2;
  const inside = elementsIn(context.scope.harness, box);
  const above = nets ? (upper ? net + 4 : 0) : insideHeight(inside.length);
  const besideText = !nets && upper && lower;
  const text = besideText ? 0 : rows.length * SIZE.row + 4;
  const height = Math.max(76, BOX.pad + above + text + (nets && lower ? net : 0) + BOX.pad);
  const frame: Rect = { x0, y0: 0, x1, y1: height };
  const textTop = besideText ? (height - rows.length * SIZE.row) / 2 : BOX.pad + above;
  const textLeft = besideText ? Math.max(...pins.map(({ x }) => x)) + 14 : x0 + BOX.pad;
  const rect: Shape = {
    ...{ kind: "rect", box: frame, stroke: "accent", width: 2, fill: nets ? "surface" : "paper", round: 4 },
  };
  const parts = pins.map((pin) => sketchPin(context, box, { ...pin, height, nets }));
  const symbols = nets ? NOTHING : drawInside({ harness: context.scope.harness, edges: inside, pins, height });
  const written = writeRows(rows, textLeft, textTop);
  const shapes = [rect, ...joinWritten(symbols, written, ...parts).shapes];
  return { shapes, blocks: [frame, ...parts.flatMap(({ blocks }) => blocks)], box: frame, height };
}

/** A pin, its number outside the box, its net label inside. The net label is no block of its own: it lies in the box. */
function sketchPin(
  context: SketchContext,
  box: Box,
  { pin, x, edge, height, nets }: PlacedPin & { readonly height: number; readonly nets: boolean },
): Written {
  const y = edge === "upper" ? 0 : height;
  const square: Shape = {
    ...{ kind: "rect", box: { x0: x - 5, y0: y - 5, x1: x + 5, y1: y + 5 }, stroke: "accent", width: 2, fill: "paper" },
  };
  const isUpper = edge === "upper";
  const name = writeRows([idRow(shownId(pin.name), box.strong)], x + 8, isUpper ? y - 5 - SIZE.row : y + 5);
  const mark = drawMark(
    markAt(context.scope.harness, context.style, pin.nodes, pin.item.id),
    x - 9,
    isUpper ? y - 6 - SIZE.row : y + 4,
  );
  const text = nets ? (pin.net ?? "") : "";
  const width = textWidth(text, "plain", SIZE.small);
  const net = writeRows([wordRow(text, false)], x - width / 2, isUpper ? y + 7 : y - 7 - SIZE.row);
  const outside = pin.name === "" ? mark : joinWritten(name, mark);
  return { shapes: [square, ...outside.shapes, ...(text === "" ? [] : net.shapes)], blocks: outside.blocks };
}
