import type { Harness, HarnessEdge } from "../../harness-model/index.ts";
import type { XY } from "../xy.ts";
import type { BoxPin } from "./diagram-graph.ts";
import { SIZE, type Written } from "./sketch.ts";
import type { Shape } from "./shapes.ts";
import { textWidth } from "./text-width.ts";

/** A pin of a box at its place. */
export interface PlacedPin {
  readonly pin: BoxPin;
  readonly x: number;
  /** The edge of the box that it stands on. */
  readonly edge: "upper" | "lower";
}

type ElementEdge = Extract<HarnessEdge, { kind: "element" }>;

/** One element in a box, between the places of its pins. */
interface InsideRow {
  readonly edge: ElementEdge;
  readonly from: number;
  readonly to: number;
  /** Place of the pin of the signal of a divider. */
  readonly tap: number | undefined;
}

/** Height of one element in a box. */
const ROW = 28;

/** The height that so many elements take in a box, in px. */
export function insideHeight(count: number): number {
  return 18 + count * ROW;
}

/**
 * Draws the elements of a part in its box: one row each, with its symbol on the line between its pins.
 *
 * @param part The elements, the pins at their places, and the height of the box.
 */
export function drawInside(part: {
  readonly harness: Harness;
  readonly edges: readonly ElementEdge[];
  readonly pins: readonly PlacedPin[];
  readonly height: number;
}): Written {
  const rows = rowsOf(part.harness, part.edges, part.pins);
  const drops = new Map<number, { readonly deepest: number; readonly highest: number }>();
  const yOf = (at: number): number => 28 + at * ROW;
  rows.forEach((row, at) => {
    for (const x of [row.from, row.to]) {
      const known = drops.get(x);
      drops.set(x, { deepest: yOf(at), highest: known?.highest ?? yOf(at) });
    }
    if (row.tap !== undefined)
      drops.set(row.tap, { deepest: yOf(at) + tapSide(row) * 15, highest: yOf(at) + tapSide(row) * 15 });
  });
  const lines = [...drops].map(([x, { deepest, highest }]) => {
    const isUpper = part.pins.find((pin) => pin.x === x)?.edge !== "lower";
    const ends = isUpper ? [5, deepest] : [highest, part.height - 5];
    return polyline(ends.map((y) => ({ x, y })));
  });
  const foreign = [...drops.keys()].sort((a, b) => a - b);
  const symbols = rows.flatMap((row, at) => drawRow(row, yOf(at), foreign));
  // Two elements at one pin: a dot, as lines that only cross are not joined.
  const dots = rows.flatMap((row, at) =>
    [row.from, row.to].filter((x) => yOf(at) !== drops.get(x)?.deepest).map((x) => dot({ x, y: yOf(at) })),
  );
  return { shapes: [...lines, ...symbols, ...dots], blocks: [] };
}

/** Elements with the places of their pins; the two edges of a divider are one row. */
function rowsOf(harness: Harness, edges: readonly ElementEdge[], pins: readonly PlacedPin[]): readonly InsideRow[] {
  const placeOf = (edge: ElementEdge, end: "from" | "to"): number | undefined => {
    const number = harness.edgeNumbers.get(edge.key) ?? -1;
    const node = harness.index[end][number] ?? -1;
    return pins.find(({ pin }) => pin.nodes.includes(node))?.x;
  };
  return edges.flatMap((edge): InsideRow[] => {
    if (edge.key.endsWith(".bottom") && edge.element.kind === "divider") return [];
    const bottom = edges.find((each) => each.element === edge.element && each !== edge);
    const from = placeOf(edge, "from");
    const tap = bottom ? placeOf(edge, "to") : undefined;
    const to = bottom ? placeOf(bottom, "to") : placeOf(edge, "to");
    if (from === undefined || to === undefined) return [];
    return [{ edge, from: Math.min(from, to), to: Math.max(from, to), tap }];
  });
}

function dot(at: XY): Shape {
  return { kind: "circle", at, radius: 3, stroke: "none", width: 0, fill: "ink" };
}

function polyline(points: readonly XY[], width: number = SIZE.weakLine): Shape {
  return { kind: "polyline", points, stroke: "ink", width };
}

/** The line of an element with its symbol in the widest gap between the lines that come down to it. */
function drawRow({ edge, from, to, tap }: InsideRow, y: number, drops: readonly number[]): readonly Shape[] {
  const stops = [from, ...drops.filter((x) => x > from && x < to), to];
  let best = { from, to, width: 0 };
  stops.slice(1).forEach((x, at) => {
    const before = stops[at] ?? from;
    if (x - before > best.width) best = { from: before, to: x, width: x - before };
  });
  const middle = (best.from + best.to) / 2;
  const line = polyline([
    { x: from, y },
    { x: to, y },
  ]);
  const arrow = tap === undefined ? [] : tapArrow({ x: middle, y }, tap, tapSide({ from, to, tap }));
  return [line, ...symbol(edge, { x: middle, y }), ...arrow];
}

/** On which side the arrow of the signal comes: from below where its pin stands beside the others, so that it crosses none of their lines. */
function tapSide({ from, to, tap }: Pick<InsideRow, "from" | "to" | "tap">): -1 | 1 {
  return tap !== undefined && tap > from && tap < to ? -1 : 1;
}

/** The arrow of the signal pin onto the resistor (IEC 60617, 04-01-07, from memory). */
function tapArrow({ x, y }: XY, tap: number, side: -1 | 1): readonly Shape[] {
  const head = [
    { x: x - 4, y: y + side * 15 },
    { x: x + 4, y: y + side * 15 },
    { x, y: y + side * 8 },
    { x: x - 4, y: y + side * 15 },
  ];
  const line = [
    { x: tap, y: y + side * 15 },
    { x, y: y + side * 15 },
  ];
  return [polyline(line), { kind: "polyline", points: head, stroke: "none", width: 0, fill: "ink" }];
}

function symbol({ component, element }: ElementEdge, { x, y }: XY): readonly Shape[] {
  const word = wordOf(element.kind);
  const half = word === undefined ? 20 : textWidth(word, "plain", SIZE.small) / 2 + 5;
  const box: Shape = {
    ...{ kind: "rect", box: { x0: x - half, y0: y - 8, x1: x + half, y1: y + 8 }, stroke: "ink" },
    ...{ width: SIZE.weakLine, fill: "paper" },
  };
  if (word !== undefined) {
    const width = textWidth(word, "plain", SIZE.small);
    const at = { x: x - width / 2, y: y + 4 };
    return [box, { kind: "text", at, text: word, face: "plain", size: SIZE.small, tone: "ink", width }];
  }
  const slant = (left: number): Shape =>
    polyline([
      { x: x - left, y: y + 8 },
      { x: x + left, y: y - 8 },
    ]);
  if (element.kind === "coil") return component.kind === "relay" ? [box] : [box, slant(9)];
  if (element.kind !== "ntc") return [box];
  const foot = [
    { x: x - 16, y: y + 11 },
    { x: x - 11, y: y + 11 },
    { x: x + 12, y: y - 11 },
  ];
  return [box, polyline(foot)];
}

/** Elements without a symbol of their own in a box are named in it. */
function wordOf(kind: ElementEdge["element"]["kind"]): string | undefined {
  if (kind === "driver") return "output";
  if (kind === "bias") return "pull";
  return kind === "source" ? "source" : undefined;
}
