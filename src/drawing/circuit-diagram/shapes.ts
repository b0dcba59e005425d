import type { Item } from "../../connectivity/index.ts";
import type { ColourMark } from "../colour-mark.ts";
import type { XY } from "../xy.ts";
import type { Face } from "./text-width.ts";

/** A rectangle, in px. */
export interface Rect {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** How a shape is toned; the theme says what each tone looks like. */
export type Tone = "ink" | "quiet" | "accent" | "paper" | "surface" | "pill" | "none";

/** How a line is broken. */
export type Dash = "link" | "outline" | "short";

/** One primitive of a diagram, in px. */
export type Shape =
  | {
      readonly kind: "polyline";
      readonly points: readonly XY[];
      readonly stroke: Tone;
      readonly width: number;
      readonly dash?: Dash;
      readonly fill?: Tone;
    }
  | {
      readonly kind: "rect";
      readonly box: Rect;
      readonly stroke: Tone;
      readonly width: number;
      readonly fill: Tone;
      readonly round?: number;
      readonly dash?: Dash;
    }
  | {
      readonly kind: "circle";
      readonly at: XY;
      readonly radius: number;
      readonly stroke: Tone;
      readonly width: number;
      readonly fill: Tone;
    }
  | {
      readonly kind: "text";
      readonly at: XY;
      readonly text: string;
      readonly face: Face;
      readonly size: number;
      readonly tone: Tone | "on-pill" | "on-tag";
      readonly width: number;
    }
  | {
      readonly kind: "wire";
      readonly from: XY;
      readonly to: XY;
      readonly width: number;
      readonly mark: ColourMark;
    };

/** What a group of shapes is. */
export type GroupKind =
  "outline" | "link" | "line" | "wire" | "bar" | "box" | "gate" | "pin" | "part" | "joint" | "note";

/** The shapes of one thing. */
export interface ShapeGroup {
  readonly kind: GroupKind;
  /** The item it stands for, if it stands for one. */
  readonly item: Item | undefined;
  /** In words, for a title. */
  readonly title: string;
  readonly strong: boolean;
  readonly shapes: readonly Shape[];
  /** The rectangles that nothing else may cover. */
  readonly blocks: readonly Rect[];
}

/** The same shape, moved. */
export function moveShape(shape: Shape, by: XY): Shape {
  const move = ({ x, y }: XY): XY => ({ x: x + by.x, y: y + by.y });
  switch (shape.kind) {
    case "polyline":
      return { ...shape, points: shape.points.map(move) };
    case "rect":
      return { ...shape, box: moveRect(shape.box, by) };
    case "circle":
    case "text":
      return { ...shape, at: move(shape.at) };
    case "wire":
      return { ...shape, from: move(shape.from), to: move(shape.to) };
  }
}

/** The same rectangle, moved. */
export function moveRect({ x0, y0, x1, y1 }: Rect, { x, y }: XY): Rect {
  return { x0: x0 + x, y0: y0 + y, x1: x1 + x, y1: y1 + y };
}

/** Whether two rectangles cover common ground. */
export function overlaps(a: Rect, b: Rect): boolean {
  return a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1;
}

/** The smallest rectangle around some. */
export function around(rects: readonly Rect[]): Rect {
  return {
    x0: Math.min(...rects.map(({ x0 }) => x0)),
    y0: Math.min(...rects.map(({ y0 }) => y0)),
    x1: Math.max(...rects.map(({ x1 }) => x1)),
    y1: Math.max(...rects.map(({ y1 }) => y1)),
  };
}
