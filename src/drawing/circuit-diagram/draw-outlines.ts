import type { Item } from "../../connectivity/index.ts";
import type { DiagramLayout } from "./layout-diagram.ts";
import { around, moveRect, overlaps, type Rect, type Shape, type ShapeGroup } from "./shapes.ts";
import { OUTLINE } from "./sketch-thing.ts";
import { wordRow, writeRows } from "./sketch.ts";
import { partOf } from "./plan-columns.ts";

/** Ground that a thing of a part takes, and the heights at which an outline has to go through its pins. */
interface Piece {
  readonly component: string;
  readonly box: Rect;
  /** Heights of pins at its upper and lower edge. */
  readonly upper: readonly number[];
  readonly lower: readonly number[];
}

/** Ground that an outline of another part must not enter. */
interface Foreign {
  readonly component: string | undefined;
  readonly box: Rect;
}

/** A stop of a column: a thing or an end, with its part. */
interface Stop {
  readonly component: string | undefined;
  readonly y: number;
  readonly top: number;
  readonly bottom: number;
  readonly isEdge: boolean;
  readonly blocks: readonly Rect[];
}

/** A line inside a part that is longer than this is shown by two outlines. */
const LONG = 170;

/**
 * The outlines of parts with several things: each as large as it can be without anything foreign in it, and with its pins on its edges.
 *
 * @returns The outlines, and the words at the long lines between two of one part.
 */
export function drawOutlines(layout: DiagramLayout): readonly ShapeGroup[] {
  const foreign = foreignGround(layout);
  const pieces = new Map<string, Piece[]>();
  const words: ShapeGroup[] = [];
  layout.model.columns.forEach((_, column) => {
    const stops = stopsOf(layout, column);
    for (const piece of piecesOf(layout, stops, column)) {
      const list = pieces.get(piece.component) ?? [];
      list.push(piece);
      pieces.set(piece.component, list);
    }
    words.push(...insideWords(layout, stops, { column, foreign }));
  });
  const bars = barPieces(layout);
  const outlines = [...pieces].flatMap(([component, list]) => {
    const others = foreign.filter((each) => each.component !== component);
    const own = bars.filter((bar) => bar.component === component);
    const whole = merge([...list, ...own], others);
    // Where pins at different heights keep an outline from going round a bar, each column has its own.
    const made = isApart(whole) ? whole : merge(list, others);
    return made.map(({ box }) => outline(layout, component, box));
  });
  return [...outlines, ...words];
}

function componentOf({ model }: DiagramLayout, thing: number): { component: string | undefined; isEdge: boolean } {
  const found = model.graph.things[thing];
  const isEdge = found?.kind === "pin" || (found?.kind === "joint" && found.look === "stud");
  return { component: partOf(found), isEdge };
}

/** The stops of a column from above to below, its ends among them. */
function stopsOf(layout: DiagramLayout, at: number): readonly Stop[] {
  const { model, plans, xs, ys } = layout;
  const column = model.columns[at];
  if (!column) return [];
  const x = xs[at] ?? 0;
  const end = (wide: number): Stop => {
    const { sketch, y } = layout.wides[wide] ?? { sketch: undefined, y: 0 };
    const { component, isEdge } = componentOf(layout, model.wides[wide]?.thing ?? -1);
    // Of a bar inside the part what stands at this column: its dot and, at its right end, what is written there.
    const { x0, x1 } = sketch?.bar ?? { x0: x, x1: x };
    const isNear = (block: Rect): boolean =>
      (x <= x0 && block.x1 <= x + 10) || (x >= x1 && block.x0 >= x - 10) || (block.x0 >= x - 10 && block.x1 <= x + 10);
    const own = component !== undefined && !isEdge ? (sketch?.blocks ?? []).filter(isNear) : [];
    const blocks = [{ x0: x - 8, x1: x + 8, y0: -8, y1: 8 }, ...own].map((block) => moveRect(block, { x: 0, y }));
    return { component, isEdge, y, top: sketch?.top ?? 0, bottom: sketch?.bottom ?? 0, blocks };
  };
  const inner = (plans[at] ?? []).flatMap(({ thing, sketch }, entry): Stop[] => {
    if (thing === undefined) return [];
    const y = ys[at]?.[entry] ?? 0;
    const blocks = sketch.blocks.map((block) => moveRect(block, { x, y }));
    return [{ ...componentOf(layout, thing), y, top: sketch.top, bottom: sketch.bottom, blocks }];
  });
  return [end(column.upper), ...inner, end(column.lower)];
}

/** The stretches of a column that lie in one part. */
function piecesOf(layout: DiagramLayout, stops: readonly Stop[], column: number): readonly Piece[] {
  const lines = layout.model.columns[column]?.lines ?? [];
  const pieces: Piece[] = [];
  let from = 0;
  for (let at = 1; at <= stops.length; at++) {
    const [before, here] = [stops[at - 1], stops[at]];
    const isOne =
      here !== undefined &&
      before?.component !== undefined &&
      here.component === before.component &&
      lines[at - 1]?.wire === undefined &&
      here.y + here.top - before.y - before.bottom <= LONG;
    if (isOne) continue;
    const run = stops.slice(from, at);
    const piece = pieceOf(run, layout.xs[column] ?? 0);
    // At a long line the things keep no room for an outline: it is free anyway.
    const isLongAt = (a: Stop | undefined, b: Stop | undefined): number =>
      a?.component !== undefined && a.component === b?.component ? OUTLINE.pad : 0;
    const { x0, x1, y0, y1 } = piece?.box ?? { x0: 0, x1: 0, y0: 0, y1: 0 };
    const box = { x0, x1, y0: y0 - isLongAt(stops[from - 1], run[0]), y1: y1 + isLongAt(before, here) };
    if (piece) pieces.push({ ...piece, box });
    from = at;
  }
  return pieces;
}

function pieceOf(run: readonly Stop[], x: number): Piece | undefined {
  const [first, last] = [run[0], run.at(-1)];
  if (!first || !last || first.component === undefined || run.every(({ isEdge }) => isEdge)) return undefined;
  const inner = run.filter(({ isEdge }) => !isEdge).flatMap(({ blocks }) => blocks);
  const box = around([...inner, { x0: x - 12, x1: x + 12, y0: first.y, y1: last.y }]);
  const upper = first.isEdge ? [first.y] : [];
  const lower = last.isEdge && last !== first ? [last.y] : [];
  return {
    component: first.component,
    box: {
      ...{ x0: box.x0 - OUTLINE.pad, x1: box.x1 + OUTLINE.pad },
      // Things at the end of a stretch keep the room of the outline themselves.
      y0: upper[0] ?? box.y0,
      y1: lower[0] ?? box.y1,
    },
    ...{ upper, lower },
  };
}

/** Bars inside a part join the outlines of their columns. */
function barPieces(layout: DiagramLayout): readonly Piece[] {
  return layout.wides.flatMap(({ sketch, y }, at) => {
    const { component, isEdge } = componentOf(layout, layout.model.wides[at]?.thing ?? -1);
    if (component === undefined || isEdge || sketch.blocks.length === 0) return [];
    const box = moveRect(around([...sketch.blocks, ...(sketch.bar ? [sketch.bar] : [])]), { x: 0, y });
    const padded = { x0: box.x0 - OUTLINE.pad, y0: box.y0, x1: box.x1 + OUTLINE.pad, y1: box.y1 + OUTLINE.pad };
    return [{ component, box: padded, upper: [], lower: [] }];
  });
}

/** All ground with the part that it belongs to. */
function foreignGround(layout: DiagramLayout): readonly Foreign[] {
  const { model, plans, xs, ys } = layout;
  const found: Foreign[] = [];
  layout.wides.forEach(({ sketch, y }, at) => {
    const { component } = componentOf(layout, model.wides[at]?.thing ?? -1);
    const boxes = [...sketch.blocks, ...(sketch.bar ? [sketch.bar] : [])];
    for (const box of boxes) found.push({ component, box: moveRect(box, { x: 0, y }) });
  });
  plans.forEach((entries, column) => {
    const x = xs[column] ?? 0;
    entries.forEach(({ thing, sketch }, entry) => {
      const y = ys[column]?.[entry] ?? 0;
      const { component } = thing === undefined ? { component: undefined } : componentOf(layout, thing);
      for (const block of sketch.blocks) found.push({ component, box: moveRect(block, { x, y }) });
    });
    wireGround(layout, column).forEach((box) => found.push({ component: undefined, box }));
  });
  return found;
}

/** Ground of the wires of a column, a little shorter than they are so that they may end on an outline. */
function wireGround(layout: DiagramLayout, column: number): readonly Rect[] {
  const stops = stopsOf(layout, column);
  const x = layout.xs[column] ?? 0;
  return (layout.model.columns[column]?.lines ?? []).flatMap(({ wire }, at) => {
    const [above, below] = [stops[at], stops[at + 1]];
    if (!wire || !above || !below) return [];
    return [{ x0: x - 4, x1: x + 4, y0: above.y + above.bottom + 2, y1: below.y + below.top - 2 }];
  });
}

/** Joins pieces of one part as long as nothing foreign gets in and all pins stay on the edges. */
function merge(pieces: readonly Piece[], foreign: readonly Foreign[]): readonly Piece[] {
  const list = [...pieces];
  for (let at = 0; at < list.length;) {
    const other = list.findIndex((piece, number) => number > at && canJoin(list[at], piece, foreign));
    const [first, second] = [list[at], list[other]];
    if (!first || !second) {
      at++;
      continue;
    }
    list[at] = join(first, second);
    list.splice(other, 1);
    at = 0;
  }
  return list.filter(({ box }) => foreign.every((each) => !overlaps(each.box, box)));
}

/** Whether no two pieces lie over one another: an outline would cut through texts of its own part. */
function isApart(pieces: readonly Piece[]): boolean {
  return pieces.every((piece, at) => pieces.slice(at + 1).every((other) => !overlaps(piece.box, other.box)));
}

function join(a: Piece, b: Piece): Piece {
  return {
    component: a.component,
    box: around([a.box, b.box]),
    upper: [...a.upper, ...b.upper],
    lower: [...a.lower, ...b.lower],
  };
}

function canJoin(a: Piece | undefined, b: Piece, foreign: readonly Foreign[]): boolean {
  if (!a) return false;
  // Pieces over one another that a long line parts stay apart.
  if (a.box.y0 >= b.box.y1 || b.box.y0 >= a.box.y1) return false;
  const { box, upper, lower } = join(a, b);
  const isOnEdge = upper.every((y) => Math.abs(y - box.y0) < 0.5) && lower.every((y) => Math.abs(y - box.y1) < 0.5);
  return isOnEdge && foreign.every((each) => !overlaps(each.box, box));
}

function outline({ model }: DiagramLayout, component: string, box: Rect): ShapeGroup {
  const part = model.scope.harness.fitted.components.get(component);
  const item: Item = { type: "component", id: component };
  const shape: Shape = { kind: "rect", box, stroke: "quiet", width: 1.3, fill: "surface", round: 4, dash: "outline" };
  return {
    kind: "outline",
    item,
    title: `${component} ${part?.label ?? ""}`.trim(),
    strong: false,
    shapes: [shape],
    blocks: [],
  };
}

/** Says at a long line of a part where it is. */
function insideWords(
  layout: DiagramLayout,
  stops: readonly Stop[],
  { column, foreign }: { readonly column: number; readonly foreign: readonly Foreign[] },
): readonly ShapeGroup[] {
  const lines = layout.model.columns[column]?.lines ?? [];
  const x = layout.xs[column] ?? 0;
  return lines.flatMap((line, at): ShapeGroup[] => {
    const [above, below] = [stops[at], stops[at + 1]];
    if (line.wire || !above || !below || above.component === undefined || above.component !== below.component)
      return [];
    const [start, end] = [above.y + above.bottom, below.y + below.top];
    if (end - start <= LONG) return [];
    const rows = writeRows([wordRow(`inside ${above.component}`, false)], x + 10, (start + end) / 2 - 8);
    if (rows.blocks.some((block) => foreign.some((each) => overlaps(each.box, block)))) return [];
    return [{ kind: "note", item: undefined, title: "", strong: false, ...rows }];
  });
}
