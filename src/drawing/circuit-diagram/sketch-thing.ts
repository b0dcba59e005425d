import type { XY } from "../xy.ts";
import { coilOf } from "./choose-circuits.ts";
import type { Gate, GateHalf, Joint, Part, Pin, Thing } from "./diagram-graph.ts";
import type { SketchStyle } from "./diagram-options.ts";
import type { DiagramScope } from "./diagram-scope.ts";
import { elementName, elementValue, shownId } from "./part-texts.ts";
import { drawMark, markAt } from "./sketch-mark.ts";
import {
  idRow,
  joinWritten,
  NOTHING,
  SIZE,
  wordRow,
  wrapText,
  writeRows,
  type Sketch,
  type Written,
} from "./sketch.ts";
import { around, type Rect, type Shape } from "./shapes.ts";
import { drawSymbol, symbolOf } from "./symbols.ts";

/** What is known of a thing by its place in a column. */
export interface ThingPlace {
  /** Nodes of the line above it, to tell which half of a gate is the upper one. */
  readonly above: readonly number[];
  /** Whether a wire comes to it from above, and one from below. */
  readonly wireAbove: boolean;
  readonly wireBelow: boolean;
  /** Whether a dashed line joins it to its coil or contact. */
  readonly isLinked: boolean;
  /** Whether an outline of its part runs above it, and one below. */
  readonly outlineAbove: boolean;
  readonly outlineBelow: boolean;
}

/** What all sketches need. */
export interface SketchContext {
  readonly scope: DiagramScope;
  readonly style: SketchStyle;
}

/** Room between an outline and what is in it, and how much of an outline is kept free of text beside a pin. */
export const OUTLINE = { pad: 8, edge: { left: 10, right: 40 } } as const;

/** Most width of a row of words beside a symbol, and most rows. */
const LABEL = { width: 124, rows: 3, shortStub: 88 } as const;

/** Sketches a thing that stands in a column. */
export function sketchThing(context: SketchContext, thing: Exclude<Thing, { kind: "box" }>, place: ThingPlace): Sketch {
  switch (thing.kind) {
    case "gate":
      return sketchGate(context, thing, place);
    case "pin":
      return sketchPin(context, thing, place);
    case "part":
      return sketchPart(context, thing, place);
    case "joint":
      return sketchDot(context, thing);
  }
}

function lineWidth(strong: boolean): number {
  return strong ? SIZE.strongLine : SIZE.weakLine;
}

function sketchGate(context: SketchContext, gate: Gate, { above, wireAbove }: ThingPlace): Sketch {
  const { strong, halves } = gate;
  const [upper, lower] = above.includes(halves[1]?.node ?? -1) ? [...halves].reverse() : halves;
  const names = [upper, lower].flatMap((half) => half?.name ?? []).map((name) => idRow(shownId(name), strong));
  const rows = lower ? names : [...names, wordRow("nothing plugged in", false)];
  // Pins go into sockets: the gate points the way the pins point.
  const isUp = lower?.hasPins === true || upper?.hasPins === false;
  const chevrons = (lower ? [-3, 4] : [0]).map((y): Shape => {
    const [side, middle] = isUp ? [y + 4, y - 4] : [y - 4, y + 4];
    const points = [
      { x: -7, y: side },
      { x: 0, y: middle },
      { x: 7, y: side },
    ];
    return { kind: "polyline", points, stroke: "ink", width: lineWidth(strong) };
  });
  const label = writeRows(rows, 13, -SIZE.row);
  const mark = drawMark(markAt(context.scope.harness, context.style, nodesOf(halves), gate.item.id), -12, -9);
  const block: Rect = { x0: -8, y0: -8, x1: 8, y1: 9 };
  const [start, end] = lower ? [-14, 14] : wireAbove ? [-14, 0] : [0, 14];
  const stem: Shape = {
    ...{ kind: "polyline", stroke: "ink", width: lineWidth(strong) },
    points: [
      { x: 0, y: start },
      { x: 0, y: end },
    ],
  };
  const all = joinWritten({ shapes: [stem, ...chevrons], blocks: [block] }, label, mark);
  return { ...all, top: -14, bottom: 14 };
}

function nodesOf(halves: readonly GateHalf[]): readonly number[] {
  return halves.map(({ node }) => node);
}

function sketchPin(context: SketchContext, pin: Pin, { wireAbove, wireBelow }: ThingPlace): Sketch {
  const { scope, style } = context;
  const isUpper = wireAbove || !wireBelow;
  const box: Rect = { x0: -4.5, y0: -4.5, x1: 4.5, y1: 4.5 };
  const square: Shape = { kind: "rect", box, stroke: "ink", width: lineWidth(pin.strong), fill: "paper" };
  const isOnly = pin.name === `${pin.component}:${pin.cavity}`;
  const row = idRow(isOnly ? pin.cavity : shownId(pin.name), pin.strong);
  const label = writeRows([row], 8, isUpper ? -5 - SIZE.row : 5);
  const mark = drawMark(markAt(scope.harness, style, pin.nodes, pin.item.id), -9, isUpper ? -6 - SIZE.row : 4);
  const edge: Rect = { x0: -OUTLINE.edge.left, y0: -2, x1: OUTLINE.edge.right, y1: 2 };
  return { ...joinWritten({ shapes: [square], blocks: [box, edge] }, label, mark), top: 0, bottom: 0 };
}

function sketchPart({ scope, style }: SketchContext, part: Part, place: ThingPlace): Sketch {
  const { isLinked, outlineAbove, outlineBelow } = place;
  const { component, element, strong } = part;
  const symbol = drawSymbol(symbolOf(component, element), lineWidth(strong));
  const { id, label } = elementName(component, element);
  const value = elementValue(element);
  const words = style.short ? [] : wrapText(label, LABEL.width, LABEL.rows);
  const rows = [...words, ...(value === undefined ? [] : [value])].map((text) => wordRow(text, strong));
  const x = symbol.block.x1 + 7;
  const coil = coilOf(scope.harness, part.edge)?.id;
  const isMoved = element.kind === "coil" || element.kind === "contact";
  const arrow = coil !== undefined && !isLinked ? coilArrow(coil, strong) : NOTHING;
  const gap = arrow === NOTHING ? 0 : SIZE.row / 2;
  const split = isMoved ? 3 : 0;
  const top = isMoved ? -split - gap - SIZE.row : (-(rows.length + 1) * SIZE.row) / 2;
  const name = writeRows([idRow(shownId(id), strong)], x, top);
  const text = writeRows(rows, x, isMoved ? split + gap : top + SIZE.row);
  const drawn = { shapes: symbol.shapes, blocks: [symbol.block] };
  const all = joinWritten(drawn, name, text, arrow);
  const { x0, x1, y0, y1 } = around(all.blocks);
  const above = outlineAbove ? [{ x0, x1, y0: y0 - OUTLINE.pad - 1, y1: y0 - OUTLINE.pad }] : [];
  const below = outlineBelow ? [{ x0, x1, y0: y1 + OUTLINE.pad, y1: y1 + OUTLINE.pad + 1 }] : [];
  return { shapes: all.shapes, blocks: [...all.blocks, ...above, ...below], top: -symbol.half, bottom: symbol.half };
}

/** A dashed arrow with the name of the coil that moves a contact. */
function coilArrow(coil: string, strong: boolean): Written {
  const label = writeRows([wordRow(shownId(coil), strong)], 36, -SIZE.row / 2);
  const line: Shape = {
    ...{ kind: "polyline", stroke: "ink", width: 1.8, dash: "link" },
    points: [
      { x: -5, y: 0 },
      { x: 26, y: 0 },
    ],
  };
  return joinWritten(
    { shapes: [line, arrowHead({ x: 32, y: 0 }, "ink")], blocks: [{ x0: 4, y0: -4, x1: 33, y1: 4 }] },
    label,
  );
}

function arrowHead({ x, y }: XY, tone: "ink" | "quiet"): Shape {
  const points = [
    { x: x - 8, y: y - 4 },
    { x, y },
    { x: x - 8, y: y + 4 },
    { x: x - 8, y: y - 4 },
  ];
  return { kind: "polyline", points, stroke: "none", width: 0, fill: tone };
}

/** Most names at a cut way; more are counted. */
const MOST_NAMES = 4;

interface StubPlace {
  /** How much lower than usual the arrow is. */
  readonly y: number;
  readonly short: boolean;
}

/**
 * The bent arrow of ways that are not drawn, with the names of what each first meets.
 *
 * @param x Where the bar ends.
 */
function sketchStub(names: readonly string[], x: number, { y, short }: StubPlace): Written {
  if (names.length === 0) return NOTHING;
  const shown = names.slice(0, MOST_NAMES).map(shownId);
  const more = names.length - shown.length;
  const text = `${shown.join(", ")}${more > 0 ? ` +${more}` : ""}`;
  const rows = wrapText(text, short ? LABEL.shortStub : LABEL.width, MOST_NAMES).map((row) => wordRow(row, false));
  const points = [
    { x: x + 3, y: 3 },
    { x: x + 10, y: 10 },
    { x: x + 10, y: 10 + y },
    { x: x + 17, y: 10 + y },
  ];
  const kick: Shape = { kind: "polyline", points, stroke: "quiet", width: SIZE.weakLine };
  const block: Rect = { x0: x + 7, y0: 5, x1: x + 25, y1: 15 + y };
  const arrow = arrowHead({ x: x + 24, y: 10 + y }, "quiet");
  return joinWritten({ shapes: [kick, arrow], blocks: [block] }, writeRows(rows, x + 27, 2 + y));
}

/** The dot of a joint: filled for a splice, hollow for a stud, which may be touched. */
export function drawDot(joint: Joint, x: number): Written {
  const radius = { supply: 6, ground: 6, stud: 6, splice: 5, contact: 4, inner: 3.5, open: 4 }[joint.look];
  const isHollow = joint.look === "supply" || joint.look === "ground" || joint.look === "stud" || joint.look === "open";
  const dot: Shape = {
    ...{ kind: "circle", at: { x, y: 0 }, radius, stroke: "ink" },
    ...{ width: isHollow ? 2.2 : 1, fill: isHollow ? "paper" : "ink" },
  };
  const rim = radius + 1;
  return { shapes: [dot], blocks: [{ x0: x - rim, y0: -rim, x1: x + rim, y1: rim }] };
}

/** The frame symbol to the left of a bar (IEC 60617, 02-15-04, from memory). */
export function drawFrame(x: number): Written {
  const stroke = (points: readonly XY[], width: number): Shape => ({ kind: "polyline", points, stroke: "ink", width });
  const slanted = [-23, -16, -9].map((at) =>
    stroke(
      [
        { x: x + at, y: 7 },
        { x: x + at - 5, y: 14 },
      ],
      1.6,
    ),
  );
  const down = [
    { x: x - 6, y: 0 },
    { x: x - 16, y: 0 },
    { x: x - 16, y: 7 },
  ];
  const base = [
    { x: x - 25, y: 7 },
    { x: x - 7, y: 7 },
  ];
  return {
    shapes: [stroke(down, 1.6), stroke(base, 2.2), ...slanted],
    blocks: [{ x0: x - 29, y0: -2, x1: x - 7, y1: 15 }],
  };
}

/** What stands to the right of a joint: its id, what is said of it, where it goes on. */
export function sketchJointRight(
  { style }: SketchContext,
  joint: Joint,
  x: number,
  notes: readonly string[] = [],
): Written {
  const { look, strong } = joint;
  const offset = look === "supply" || look === "ground" ? 22 : 12;
  const isNamed = look !== "inner" && look !== "contact" && look !== "open";
  const id = isNamed ? writeRows([idRow(shownId(joint.item.id), strong)], x + offset, -5 - SIZE.row) : NOTHING;
  const said = look === "open" ? ["no far end in the data"] : notes;
  const rows = said.map((text) => wordRow(text, false));
  const words = writeRows(rows, x + offset, -5);
  return joinWritten(
    id,
    words,
    sketchStub(joint.stubs, x, { y: Math.max(0, said.length * SIZE.row - 5), short: style.short }),
  );
}

/** What stands to the left of a joint: the frame symbol and what is written at the point. */
export function sketchJointLeft({ scope, style }: SketchContext, joint: Joint, x: number): Written {
  const frame = joint.isFrame ? drawFrame(x) : NOTHING;
  const right = x - (joint.isFrame ? 34 : joint.look === "supply" || joint.look === "ground" ? 19 : 12);
  return joinWritten(frame, drawMark(markAt(scope.harness, style, [joint.node], joint.item.id), right, -9));
}

function sketchDot(context: SketchContext, joint: Joint): Sketch {
  const parts = joinWritten(drawDot(joint, 0), sketchJointRight(context, joint, 0), sketchJointLeft(context, joint, 0));
  return { ...parts, top: 0, bottom: 0 };
}
