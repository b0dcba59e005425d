import { resolveItem, type Circuit, type Item } from "../../connectivity/index.ts";
import type { Harness } from "../../harness-model/index.ts";
import { buildModel } from "./build-model.ts";
import { chooseScope } from "./diagram-scope.ts";
import type { DiagramModel } from "./diagram-model.ts";
import type { DiagramOptions, SketchStyle } from "./diagram-options.ts";
import { drawDiagram } from "./draw-diagram.ts";
import { drawFooting, drawHeading, drawLegend } from "./draw-legend.ts";
import { layoutDiagram, type DiagramLayout } from "./layout-diagram.ts";
import { listDiagram, type DiagramListGroup } from "./list-diagram.ts";
import { around, moveRect, moveShape, type Rect, type Shape, type ShapeGroup } from "./shapes.ts";
import type { SketchContext } from "./sketch-thing.ts";

/** A circuit diagram: shapes at their places, and the same in words. */
export interface CircuitDiagram {
  readonly kind: "diagram";
  /** The item that it is of. */
  readonly of: Item;
  readonly title: string;
  /** Size in px. */
  readonly width: number;
  readonly height: number;
  readonly groups: readonly ShapeGroup[];
  /** The same as a list, from supply to ground, one group for each column. */
  readonly list: readonly DiagramListGroup[];
  /** The layout behind it, for those who measure it. */
  readonly layout: DiagramLayout;
}

/** Why there is no diagram. */
export type NoDiagram =
  /** Too many circuits, or too wide: each of these has a diagram of its own. */
  | { readonly kind: "choose"; readonly of: Item; readonly items: readonly Item[] }
  /** No wire ends at the item in this build, or the build does not have it. */
  | { readonly kind: "nothing"; readonly of: Item };

/** More columns than this are not drawn together. */
export const MOST_COLUMNS = 24;
/** Above this height, in px, rows are set close. */
const HIGH = 1000;
/** Free ground around a diagram, in px. */
const MARGIN = 16;

/**
 * Draws the circuit of an item: supply at the top, ground at the bottom, one column for each current path.
 *
 * @param harness A machine in one build.
 * @param of The item.
 * @param options How it is drawn. Volts and permitted points come in here; nothing of them is decided in this room.
 * @returns The diagram; or the circuits to choose from where there are too many; or that there is nothing to draw.
 */
export function circuitDiagram(harness: Harness, of: Item, options: DiagramOptions = {}): CircuitDiagram | NoDiagram {
  const { wholeFeed = false, coils = "own", rows = "auto" } = options;
  const item: Item = { type: of.type, id: of.id };
  const found = resolveItem(harness, of);
  if (!found) return { kind: "nothing", of: item };
  const choice = chooseScope(harness, found, { wholeFeed, coils });
  if (choice.kind === "choose") return { kind: "choose", of: item, items: choice.circuits.map(({ serves }) => serves) };
  const model = buildModel(choice.scope);
  if (model.columns.length === 0) return { kind: "nothing", of: item };
  if (model.columns.length > MOST_COLUMNS) return { kind: "choose", of: item, items: partsOf(model) };
  const normal = drawn(model, item, { style: styleOf(options, rows === "close"), texts: options });
  if (rows !== "auto" || normal.height <= HIGH) return normal;
  const { slots, model: placed } = normal.layout;
  return drawn(placed, item, { style: styleOf(options, true), slots, texts: options });
}

function styleOf(
  { labels = "full", roleWords = false, marks = new Map() }: DiagramOptions,
  close: boolean,
): SketchStyle {
  return { short: labels === "short", close, roleWords, marks };
}

/** What a diagram that is too wide is about: the circuits of it, or, of a net, the parts and joints that it leads to. */
function partsOf({ scope, wides, graph }: DiagramModel): readonly Item[] {
  const circuits: readonly Circuit[] = scope.circuits;
  if (circuits.length > 1) return circuits.map(({ serves }) => serves);
  return wides.flatMap(({ thing }) => graph.things[thing]?.item ?? []).filter(({ id }) => id !== scope.asked.id);
}

/** What a drawing is made with: slots to start from, and what is written above and below. */
interface DrawingParts {
  readonly style: SketchStyle;
  readonly slots?: readonly number[];
  readonly texts: Pick<DiagramOptions, "heading" | "footing">;
}

function drawn(model: DiagramModel, of: Item, { style, slots, texts }: DrawingParts): CircuitDiagram {
  const context: SketchContext = { scope: model.scope, style };
  const layout = layoutDiagram(context, model, slots);
  const raw = drawDiagram(context, layout);
  const frame = around(raw.flatMap(({ shapes, blocks }) => [...blocks, ...shapes.map(groundOf)]));
  const head = drawHeading(texts.heading ?? [], { x: MARGIN, y: MARGIN });
  const top = head ? around(head.blocks).y1 + MARGIN : MARGIN;
  const by = { x: Math.ceil(MARGIN - frame.x0), y: Math.ceil(top - frame.y0) };
  const moved = raw.map((group) => ({
    ...group,
    shapes: group.shapes.map((shape) => moveShape(shape, by)),
    blocks: group.blocks.map((block) => moveRect(block, by)),
  }));
  const legend = drawLegend(context, layout.model, { x: MARGIN, y: frame.y1 + by.y + MARGIN });
  const right = Math.max(
    frame.x1 + by.x,
    ...[legend, head].flatMap((group) => group?.blocks ?? []).map(({ x1 }) => x1),
  );
  const below = around(legend.blocks).y1 + MARGIN / 2;
  const foot = drawFooting(texts.footing ?? [], { x: MARGIN, y: below }, right - MARGIN);
  const added = [head, legend, foot].flatMap((group) => group ?? []);
  return {
    ...{ kind: "diagram", of, title: texts.heading?.[0] ?? `Circuit diagram of ${of.id}` },
    width: Math.ceil(right + MARGIN),
    height: Math.ceil(Math.max(...added.flatMap(({ blocks }) => blocks).map(({ y1 }) => y1)) + MARGIN),
    groups: [...moved, ...added],
    list: listDiagram(context, layout),
    layout,
  };
}

/** The ground that a shape takes. */
function groundOf(shape: Shape): Rect {
  switch (shape.kind) {
    case "polyline":
      return around(shape.points.map(({ x, y }) => ({ x0: x, y0: y, x1: x, y1: y })));
    case "rect":
      return shape.box;
    case "circle": {
      const { at, radius } = shape;
      return { x0: at.x - radius, y0: at.y - radius, x1: at.x + radius, y1: at.y + radius };
    }
    case "text":
      return { x0: shape.at.x, y0: shape.at.y - shape.size, x1: shape.at.x + shape.width, y1: shape.at.y + 4 };
    case "wire":
      return { x0: shape.from.x - 4, y0: shape.from.y, x1: shape.to.x + 4, y1: shape.to.y };
  }
}
