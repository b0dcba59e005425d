import type { XY } from "./xy.ts";

/** A place of the harness: a branch, or an end where something sits. */
export interface DrawnPlace extends XY {
  readonly id: string;
  readonly label: string;
  /** How many bundles meet here. */
  readonly bundles: number;
}

/** A connector, stud or splice, one point each; or where the wires of one of them go on to a far end that is not in the data. */
export interface DrawnThing extends XY {
  readonly type: "connector" | "stud" | "splice" | "open-end";
  readonly id: string;
  readonly label: string;
  /** Kind of connector or role of a stud; `splice` for splices, `open` for open ends. */
  readonly sort: string;
  readonly component?: string;
  readonly zone?: string;
  /** The place it sits at; a splice sits on a bundle. */
  readonly place?: string;
}

/** A stretch of harness as a straight line. Wires without a route make a direct bundle between the two things they join. */
export interface DrawnBundle {
  readonly id: string;
  readonly kind: "segment" | "direct";
  /** Keys of its ends: ids of places, or of the things of a direct bundle. */
  readonly ends: readonly [string, string];
  /** The ends as points, the one nearer the middle of the machine first, so that lanes keep their side from bundle to bundle. */
  readonly from: XY;
  readonly to: XY;
  readonly lengthMm?: number;
  readonly zone?: string;
  /** The fitted wires in it. */
  readonly wires: readonly string[];
}

/** A component: the box around its connectors and studs. */
export interface DrawnComponent extends XY {
  readonly id: string;
  readonly label: string;
  readonly sort: string;
  readonly width: number;
  readonly height: number;
  readonly things: readonly string[];
}

/** A zone of the machine: a soft outline around what lies in it. */
export interface DrawnZone {
  readonly id: string;
  readonly label: string;
  readonly outline: readonly XY[];
}

/** A rectangle of the drawing. */
export interface Bounds {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A whole machine as points and lines. */
export interface Layout {
  readonly places: readonly DrawnPlace[];
  readonly connectors: readonly DrawnThing[];
  readonly studs: readonly DrawnThing[];
  readonly splices: readonly DrawnThing[];
  readonly openEnds: readonly DrawnThing[];
  readonly bundles: readonly DrawnBundle[];
  readonly components: readonly DrawnComponent[];
  readonly zones: readonly DrawnZone[];
  readonly bounds: Bounds;
  /** Things by `connector A1.X1`, `stud G2+`, `splice SP1`. */
  readonly things: ReadonlyMap<string, DrawnThing>;
  readonly placeById: ReadonlyMap<string, DrawnPlace>;
  readonly bundleById: ReadonlyMap<string, DrawnBundle>;
}
