import type { XY } from "../xy.ts";
import { colourMark } from "../colour-mark.ts";
import type { Line, Thing } from "./diagram-graph.ts";
import { thingAt } from "./diagram-model.ts";
import { drawOutlines } from "./draw-outlines.ts";
import type { DiagramLayout } from "./layout-diagram.ts";
import { elementName, elementValue, wireFacts } from "./part-texts.ts";
import type { SketchContext } from "./sketch-thing.ts";
import { SIZE } from "./sketch.ts";
import { moveRect, moveShape, type GroupKind, type Rect, type Shape, type ShapeGroup } from "./shapes.ts";
import { ROLE_WORDS, wireRole } from "./wire-roles.ts";

/**
 * Draws a laid out diagram: outlines below, then dashed links, wires and lines, bars, boxes and things.
 *
 * @param layout The diagram with its places.
 */
export function drawDiagram(context: SketchContext, layout: DiagramLayout): readonly ShapeGroup[] {
  const columns = layout.model.columns.flatMap((_, column) => drawColumn(context, layout, column));
  const wides = layout.model.wides.map((_, at) => drawWide(layout, at));
  const isLine = ({ kind }: ShapeGroup): boolean => kind === "line" || kind === "wire";
  const [lines, things] = [columns.filter(isLine), columns.filter((group) => !isLine(group))];
  return [...drawOutlines(layout), ...drawLinks(layout), ...lines, ...wides, ...things];
}

/** The wires, lines and things of a column. */
function drawColumn(context: SketchContext, layout: DiagramLayout, at: number): readonly ShapeGroup[] {
  const { model, plans, xs, ys } = layout;
  const column = model.columns[at];
  const x = xs[at] ?? 0;
  const entries = (plans[at] ?? []).map((entry, number) => ({ ...entry, y: ys[at]?.[number] ?? 0 }));
  const things = entries.filter(({ thing }) => thing !== undefined);
  const stop = (place: number): { readonly top: number; readonly bottom: number } => {
    const wide = layout.wides[(place < 0 ? column?.upper : column?.lower) ?? -1];
    const { sketch, y } = things[place] ?? wide ?? { sketch: { top: 0, bottom: 0 }, y: 0 };
    return { top: y + sketch.top, bottom: y + sketch.bottom };
  };
  const lines = (column?.lines ?? []).map((line, place): ShapeGroup => {
    const ends = [
      { x, y: stop(place - 1).bottom },
      { x, y: stop(place).top },
    ] as const;
    const label = entries.find((entry) => entry.line === line);
    const by = { x, y: label?.y ?? 0 };
    const shapes = (label?.sketch.shapes ?? []).map((shape) => moveShape(shape, by));
    const blocks = (label?.sketch.blocks ?? []).map((block) => moveRect(block, by));
    const drawn = drawLine(context, line, ends);
    return { ...drawn, shapes: [...drawn.shapes, ...shapes], blocks };
  });
  const drawn = things.map(({ thing, sketch, y }): ShapeGroup => {
    const found = thingAt(model, thing ?? -1);
    return {
      ...groupOf(found),
      shapes: sketch.shapes.map((shape) => moveShape(shape, { x, y })),
      blocks: sketch.blocks.map((block) => moveRect(block, { x, y })),
    };
  });
  return [...lines, ...drawn];
}

function drawLine({ scope }: SketchContext, line: Line, [from, to]: readonly [XY, XY]): ShapeGroup {
  const { wire, edge, strong } = line;
  if (!wire) {
    const width = strong ? SIZE.strongLine : SIZE.weakLine;
    const shape: Shape = { kind: "polyline", points: [from, to], stroke: "ink", width };
    return { kind: "line", item: undefined, title: "", strong, shapes: [shape], blocks: [] };
  }
  const role = edge === undefined ? undefined : wireRole(scope, edge, wire);
  const isHeavy = role === "supply" || role === "ground";
  const width = strong ? SIZE.strongWire - (isHeavy ? 0 : 1) : SIZE.weakWire - (isHeavy ? 0 : 0.4);
  const mark = colourMark(wire.colour);
  const words = [`wire ${wire.id}`, mark.name, wireFacts(wire), ...(role ? [ROLE_WORDS[role].word] : [])];
  const shape: Shape = { kind: "wire", from, to, width, mark };
  return {
    kind: "wire",
    item: { type: "wire", id: wire.id },
    title: words.join(", "),
    strong,
    shapes: [shape],
    blocks: [],
  };
}

/** What a group of a thing says of it. */
function groupOf(thing: Thing): Pick<ShapeGroup, "kind" | "item" | "title" | "strong"> {
  const { item, strong } = thing;
  const kind: GroupKind = thing.kind;
  return { kind, item: item.type === "inner" ? undefined : item, strong, title: titleOf(thing) };
}

function titleOf(thing: Thing): string {
  switch (thing.kind) {
    case "part": {
      const { id, label } = elementName(thing.component, thing.element);
      return [id, label, ...(elementValue(thing.element) ?? [])]
        .filter((text) => text.length > 1 || text === id)
        .join(", ");
    }
    case "box":
      return `${thing.item.id} ${thing.component?.label ?? thing.connector?.label ?? ""}`.trim();
    case "gate":
      return thing.halves.map(({ name }) => name).join(" and ");
    case "pin":
      return `pin ${thing.item.id}`;
    case "joint":
      return thing.item.id;
  }
}

/** A bar with its dots, broken where it crosses a wire that it is not joined to; or a box. */
function drawWide(layout: DiagramLayout, at: number): ShapeGroup {
  const { model } = layout;
  const { sketch, y } = layout.wides[at] ?? { sketch: undefined, y: 0 };
  const thing = thingAt(model, model.wides[at]?.thing ?? -1);
  const move = (shape: Shape): Shape => moveShape(shape, { x: 0, y });
  const blocks = (sketch?.blocks ?? []).map((block) => moveRect(block, { x: 0, y }));
  const strong = thing.strong;
  const isPost = thing.kind === "joint" && (thing.look === "supply" || thing.look === "ground");
  const width = isPost ? 5 : strong ? 3 : 2;
  const bar = sketch?.bar ? piecesOf(layout, at, sketch.bar) : [];
  const lines = bar.map(([x0, x1]): Shape => {
    const points = [
      { x: x0, y },
      { x: x1, y },
    ];
    return { kind: "polyline", points, stroke: "ink", width };
  });
  return { ...groupOf(thing), shapes: [...lines, ...(sketch?.shapes ?? []).map(move)], blocks };
}

/** The pieces of a bar between the wires that it crosses without connection. */
function piecesOf(layout: DiagramLayout, at: number, bar: Rect): readonly (readonly [number, number])[] {
  const { model, xs, wides } = layout;
  const y = wides[at]?.y ?? 0;
  const own = new Set([...(model.wides[at]?.above ?? []), ...(model.wides[at]?.below ?? [])]);
  const joined = new Set([...own].map((column) => xs[column] ?? 0));
  const crossed = model.columns.flatMap((column, number) => {
    const x = xs[number] ?? 0;
    const isAtHeight = (wides[column.upper]?.y ?? 0) < y && y < (wides[column.lower]?.y ?? 0);
    return !own.has(number) && !joined.has(x) && isAtHeight && x > bar.x0 && x < bar.x1 ? [x] : [];
  });
  let from = bar.x0;
  const pieces: (readonly [number, number])[] = [];
  for (const x of [...new Set(crossed)].sort((a, b) => a - b)) {
    pieces.push([from, x - SIZE.barGap]);
    from = x + SIZE.barGap;
  }
  return [...pieces, [from, bar.x1]];
}

/** The dashed lines between coils and their contacts. */
function drawLinks({ model, plans, xs, ys }: DiagramLayout): readonly ShapeGroup[] {
  const placeOf = (thing: number): XY | undefined => {
    for (const [column, entries] of plans.entries()) {
      const entry = entries.findIndex((each) => each.thing === thing);
      if (entry >= 0) return { x: xs[column] ?? 0, y: ys[column]?.[entry] ?? 0 };
    }
    return undefined;
  };
  return model.links.flatMap(({ contact, coil }): ShapeGroup[] => {
    const [from, to] = [placeOf(contact), placeOf(coil)];
    if (!from || !to) return [];
    const side = from.x < to.x ? -1 : 1;
    const points = [
      { x: from.x - 5, y: from.y },
      { x: to.x + side * 17, y: to.y },
    ];
    const shape: Shape = { kind: "polyline", points, stroke: "ink", width: 1.8, dash: "link" };
    return [{ kind: "link", item: undefined, title: "", strong: false, shapes: [shape], blocks: [] }];
  });
}
