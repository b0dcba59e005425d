import type { BoxPin, Joint } from "./diagram-graph.ts";
import { thingAt, type DiagramModel, type WideThing } from "./diagram-model.ts";
import { boxTextWidth, pinSides, sketchBox } from "./sketch-box.ts";
import type { PlacedPin } from "./sketch-inside.ts";
import {
  drawDot,
  OUTLINE,
  sketchJointLeft,
  sketchJointRight,
  sketchThing,
  type SketchContext,
} from "./sketch-thing.ts";
import { joinWritten, type Written } from "./sketch.ts";
import { moveRect, moveShape, type Rect } from "./shapes.ts";

/** A bar or a box at its place, around its own height. */
export interface WideSketch extends Written {
  /** The bar between its outer dots; undefined for a box and for a single dot. */
  readonly bar: Rect | undefined;
  /** Where a line from above ends, and one from below. */
  readonly top: number;
  readonly bottom: number;
}

/** How much room a wide thing needs at the side of its columns, in px from their line. */
export interface WideRoom {
  readonly left: number;
  readonly right: number;
}

/** The columns of a wide thing, each once, as positions in the model. */
export function columnsOf({ above, below }: WideThing): readonly number[] {
  return [...new Set([...above, ...below])];
}

/**
 * The room a wide thing needs to the left of its first column and to the right of its last one.
 *
 * @param span Distance of its outer columns in px.
 */
export function wideRoom(context: SketchContext, model: DiagramModel, wide: WideThing, span: number): WideRoom {
  const thing = thingAt(model, wide.thing);
  if (thing.kind === "box") {
    const text = boxTextWidth(context, thing);
    const isBeside = isBesideText(model, wide);
    return { left: 20, right: Math.max(20, isBeside ? text + 8 : text - span - 20) };
  }
  const blocks = thing.kind === "joint" ? jointEnds(context, thing) : lone(context, model, wide).blocks;
  return { left: Math.max(14, ...blocks.map(({ x0 }) => -x0)), right: Math.max(14, ...blocks.map(({ x1 }) => x1)) };
}

/** Whether the texts of a box stand beside its pins: a part that is open and has pins on both edges. */
function isBesideText(model: DiagramModel, wide: WideThing): boolean {
  const thing = thingAt(model, wide.thing);
  return thing.kind === "box" && thing.inside.length > 0 && wide.above.length > 0 && wide.below.length > 0;
}

function jointEnds(context: SketchContext, joint: Joint): readonly Rect[] {
  return joinWritten(sketchJointRight(context, joint, 0, notesOf(context, joint)), sketchJointLeft(context, joint, 0)).blocks; // prettier-ignore
}

/** The room that one column needs at a wide thing: for its pin and the texts of it. */
export function columnRoom(
  context: SketchContext,
  model: DiagramModel,
  at: { readonly wide: WideThing; readonly pin: string | undefined },
): WideRoom {
  const thing = thingAt(model, at.wide.thing);
  const pin = thing.kind === "box" ? thing.pins.find(({ key }) => key === at.pin) : undefined;
  return thing.kind === "box" && pin ? pinSides(context, thing, pin) : { left: 10, right: 10 };
}

/**
 * Sketches a wide thing.
 *
 * @param xOf Where each column of the model stands.
 */
export function sketchWide(
  context: SketchContext,
  model: DiagramModel,
  wide: WideThing,
  xOf: (column: number) => number,
): WideSketch {
  const thing = thingAt(model, wide.thing);
  const xs = [...new Set(columnsOf(wide).map(xOf))].sort((a, b) => a - b);
  const [x0, x1] = [xs[0] ?? 0, xs.at(-1) ?? 0];
  if (thing.kind === "box") {
    const room = wideRoom(context, model, wide, x1 - x0);
    const pins = pinsOf(model, wide, xOf);
    const inner = pins.map(({ pin, x }) => ({ x, inner: pinSides(context, thing, pin).inner }));
    const left = Math.min(...inner.map((side) => side.x - side.inner));
    const right = Math.max(x1 + room.right, ...inner.map((side) => side.x + side.inner));
    const drawn = sketchBox(context, thing, { pins, x0: left, x1: right });
    return { ...drawn, bar: undefined, top: 0, bottom: drawn.height };
  }
  if (thing.kind !== "joint") {
    const { shapes, blocks, top, bottom } = lone(context, model, wide);
    const by = { x: x0, y: 0 };
    const moved = {
      shapes: shapes.map((shape) => moveShape(shape, by)),
      blocks: blocks.map((block) => moveRect(block, by)),
    };
    return { ...moved, top, bottom, bar: undefined };
  }
  const notes = notesOf(context, thing);
  const dots = xs.map((x) => drawDot(thing, x));
  const isPost = thing.look === "supply" || thing.look === "ground";
  const reach = isPost ? 14 : 0;
  const bar: Rect = { x0: x0 - reach, y0: -2.5, x1: x1 + reach, y1: 2.5 };
  const pad = thing.look === "inner" ? [{ x0: x0 - 10, x1: x1 + 40, y0: -OUTLINE.pad - 6, y1: -OUTLINE.pad - 5 }] : [];
  const ends = joinWritten(sketchJointRight(context, thing, x1, notes), sketchJointLeft(context, thing, x0));
  const parts = joinWritten(...dots, ends, { shapes: [], blocks: pad });
  return { ...parts, bar: bar.x1 > bar.x0 ? bar : undefined, top: 0, bottom: 0 };
}

/** A thing that a column begins or ends at without a joint, such as an unmated half of a connector. */
function lone(context: SketchContext, model: DiagramModel, wide: WideThing): Written & { top: number; bottom: number } {
  const thing = thingAt(model, wide.thing);
  if (thing.kind === "box") throw new RangeError("A box is no single thing");
  const column = model.columns[wide.above[0] ?? wide.below[0] ?? -1];
  const line = wide.above.length > 0 ? column?.lines.at(-1) : column?.lines[0];
  const isWired = line?.wire !== undefined;
  const { from, to } = context.scope.harness.index;
  const ends = line?.edge === undefined ? [] : [from[line.edge] ?? -1, to[line.edge] ?? -1];
  const isAbove = wide.above.length > 0;
  return sketchThing(context, thing, {
    ...{ above: isAbove ? ends : [], isLinked: false, wireAbove: isWired && isAbove, wireBelow: isWired && !isAbove },
    ...{ outlineAbove: false, outlineBelow: false },
  });
}

function pinsOf(model: DiagramModel, wide: WideThing, xOf: (column: number) => number): readonly PlacedPin[] {
  const thing = thingAt(model, wide.thing);
  const pins: PlacedPin[] = [];
  const add = (column: number, key: string | undefined, edge: PlacedPin["edge"]): void => {
    const pin: BoxPin | undefined = thing.kind === "box" ? thing.pins.find((each) => each.key === key) : undefined;
    if (pin) pins.push({ pin, x: xOf(column), edge });
  };
  for (const column of wide.above) add(column, model.columns[column]?.lowerPin, "upper");
  for (const column of wide.below) add(column, model.columns[column]?.upperPin, "lower");
  return pins.sort((a, b) => a.x - b.x);
}

/** What is said at the battery posts and at the stud that stands for the feed. */
function notesOf({ scope, style }: SketchContext, joint: Joint): readonly string[] {
  const { feed, harness } = scope;
  if (joint.look === "ground") return ["battery −"];
  if (joint.look !== "supply") return [];
  if (!feed || joint.node !== feed.at) return ["battery +"];
  const from = `from ${harness.nodes[feed.from]?.key ?? ""}`;
  if (style.short) return [from];
  const parts = [...feed.edges].flatMap((edge) => {
    const found = harness.edges[edge];
    if (found?.kind !== "element") return [];
    const { component, element } = found;
    const id = component.elements.length === 1 ? component.id : `${component.id}.${element.id}`;
    return [element.kind === "fuse" ? `${id} (${element.ratedAmpere} A)` : id];
  });
  return parts.length === 0 ? [from] : [from, `through ${parts.join(", ")}`];
}
