import type { XY } from "../xy.ts";
import type { Component, Element } from "../../harness-model/index.ts";
import type { Rect, Shape } from "./shapes.ts";

/** The symbol of a part with one current path, upright around 0, 0; lines come to it from above and below. */
export interface PartSymbol {
  readonly shapes: readonly Shape[];
  /** Half its height: where its lines begin. */
  readonly half: number;
  /** The ground that it covers. */
  readonly block: Rect;
}

/** What a symbol is drawn for. */
export type SymbolName =
  | "fuse"
  | "make"
  | "break"
  | "hand-make"
  | "hand-break"
  | "coil"
  | "solenoid"
  | "motor"
  | "generator"
  | "lamp"
  | "resistor"
  | "heater"
  | "ntc"
  | "diode"
  | "conductor";

/**
 * Which symbol stands for an element, drawn at rest.
 *
 * @param component The part it belongs to: a load in a motor is a motor, a coil in a valve a solenoid.
 */
export function symbolOf(component: Component, element: Element): SymbolName {
  switch (element.kind) {
    case "fuse":
      return "fuse";
    case "contact":
      return element.form;
    case "switch":
      return element.rest === "open" ? "hand-make" : "hand-break";
    case "coil":
      return component.kind === "valve" || component.kind === "injector" ? "solenoid" : "coil";
    case "load":
      if (component.kind === "motor" || component.kind === "starter") return "motor";
      return component.kind === "heater" ? "heater" : "resistor";
    case "resistor":
    case "ntc":
    case "lamp":
    case "diode":
      return element.kind === "resistor" ? "resistor" : element.kind;
    case "source":
      return "generator";
    case "bias":
    case "driver":
    case "divider":
      return "resistor";
    case "bar":
      return "conductor";
  }
}

/**
 * Draws a symbol.
 *
 * @param name Which.
 * @param width Width of its lines in px.
 *
 * Source: IEC 60617, the numbers beside each (of its parts before 2012, from memory); ISO 1219-1 for the solenoid, from memory.
 */
export function drawSymbol(name: SymbolName, width: number): PartSymbol {
  const line = (...points: readonly (readonly [number, number])[]): Shape => polyline(points, width);
  const box = (halfWidth: number, half: number): Shape => ({
    ...{ kind: "rect", box: { x0: -halfWidth, y0: -half, x1: halfWidth, y1: half } },
    ...{ stroke: "ink", width, fill: "paper" },
  });
  const make = (shapes: readonly Shape[], half: number, sides: readonly [number, number]): PartSymbol => ({
    ...{ shapes, half, block: { x0: sides[0], y0: -half, x1: sides[1], y1: half } },
  });
  switch (name) {
    case "fuse": // 07-21-01
      return make([box(6, 13), line([0, -13], [0, 13])], 13, [-7, 7]);
    case "make": // 07-02-01
    case "hand-make": // 07-07-01
      return switchSymbol([line([0, 10], [-11, -10])], name === "hand-make", width);
    case "break": // 07-02-03
    case "hand-break":
      return switchSymbol([line([0, 10], [-9, -13]), line([0, -10], [-9, -10])], name === "hand-break", width);
    case "coil": // 07-15-01
      return make([box(17, 9)], 9, [-18, 18]);
    case "solenoid": // ISO 1219-1
      return make([box(17, 9), line([-9, 9], [9, -9])], 9, [-18, 18]);
    case "motor": // 06-04-01, direct current
      return roundSymbol("M", width);
    case "generator": // 06-04-01
      return roundSymbol("G", width);
    case "lamp": // 08-10-01
      return make([circle(14, width), line([-10, -10], [10, 10]), line([-10, 10], [10, -10])], 14, [-15, 15]);
    case "resistor": // 04-01-01
      return make([box(7, 14)], 14, [-8, 8]);
    case "heater": // 04-01-12
      return make([box(7, 14), ...[-7, 0, 7].map((y) => line([-7, y], [7, y]))], 14, [-8, 8]);
    case "ntc": // thermistor
      return make([box(7, 14), line([-15, 14], [-11, 14], [13, -13])], 14, [-16, 14]);
    case "diode": // 05-03-01
      return make([line([-8, -7], [8, -7], [0, 7], [-8, -7]), line([-8, 7], [8, 7])], 7, [-9, 9]);
    case "conductor":
      return make([line([0, -6], [0, 6])], 6, [-2, 2]);
  }
}

function polyline(points: readonly (readonly [number, number])[], width: number): Shape {
  return { kind: "polyline", points: points.map(([x, y]): XY => ({ x, y })), stroke: "ink", width };
}

function circle(radius: number, width: number): Shape {
  return { kind: "circle", at: { x: 0, y: 0 }, radius, stroke: "ink", width, fill: "paper" };
}

/** Two stubs with a blade; by hand with a dashed link to a bar at its left. */
function switchSymbol(blade: readonly Shape[], byHand: boolean, width: number): PartSymbol {
  const stubs = [polyline([[0, -16], [0, -10]], width), polyline([[0, 10], [0, 16]], width)]; // prettier-ignore
  const link: Shape = {
    ...{ kind: "polyline", points: [{ x: -17, y: 0 }, { x: -6, y: 0 }], stroke: "ink" }, // prettier-ignore
    ...{ width: 1.6, dash: "short" },
  };
  const hand = byHand ? [link, polyline([[-17, -5], [-17, 5]], width)] : []; // prettier-ignore
  const block = { x0: byHand ? -19 : -12, y0: -16, x1: 3, y1: 16 };
  return { shapes: [...stubs, ...blade, ...hand], half: 16, block };
}

function roundSymbol(letter: string, width: number): PartSymbol {
  const text: Shape = {
    ...{ kind: "text", at: { x: -4.75, y: 4 }, text: letter, face: "mono", size: 15, tone: "ink", width: 9.5 },
  };
  const under = polyline([[-6, 8], [6, 8]], 1.6); // prettier-ignore
  const block = { x0: -18, y0: -17, x1: 18, y1: 17 };
  return { shapes: [circle(17, width), text, under], half: 17, block };
}
