import { sideKey, type Connector, type ConnectorSide } from "../harness-model/index.ts";

type Side = Connector["face"]["latch"];

/** One cavity of a face: its centre and its diameter in face units. */
export interface FaceCavity {
  readonly id: string;
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly terminalMm?: number;
  readonly isSealed: boolean;
}

/** The latch or the key of a housing: which side it is on in this view, and its rectangle in face units. */
interface FaceMark {
  readonly side: Exclude<Side, "none">;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** One half of a connector seen from one side. All lengths are face units; one grid step between the nearest cavities is 40. */
export interface ConnectorFace {
  readonly connector: string;
  /** The half as it is written, such as `XC1m` or `B3.X.harness`. */
  readonly side: string;
  readonly view: "wire-side" | "mating-side";
  /** What the view is called, never left out. */
  readonly viewName: string;
  readonly shape: "rectangular" | "round";
  readonly contacts?: string;
  /** Whole picture, from 0, 0. */
  readonly width: number;
  readonly height: number;
  /** The housing inside the picture. */
  readonly body: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
  readonly cavities: readonly FaceCavity[];
  readonly latch?: FaceMark;
  readonly key?: FaceMark;
}

/** Face units: a grid step, the housing wall around the outer cavities, and the room outside for latch and key. */
const STEP = 40;
const WALL = 34;
const OUTSIDE = 18;

/**
 * One half of a connector as it is seen from one side. The document gives one face of one half; the mating side is its mirror image, left
 * and right changed over, and so is the same side of the other half.
 *
 * @param view The side looked at: where the wires go in, or where the halves meet.
 * @example
 * ```ts
 * import { connectorFace } from "ohmward/drawing";
 * const side = { id: "harness" };
 * const face = { view: "wire-side", ofSide: "harness", shape: "rectangular", latch: "top", key: "left" } as const;
 * const cavities = [{ id: "1", x: 0, y: 0 }, { id: "2", x: 1, y: 0 }];
 * const connector = { id: "X1" as never, label: "", kind: "inline" as const, sides: [side], face, cavities, sealed: true, permits: [] };
 * const ids = (view: "wire-side" | "mating-side") =>
 *   connectorFace(connector, side, view).cavities.toSorted((a, b) => a.x - b.x).map((cavity) => cavity.id);
 * expect(ids("wire-side")).toEqual(["1", "2"]);
 * expect(ids("mating-side")).toEqual(["2", "1"]);
 * ```
 */
export function connectorFace(connector: Connector, side: ConnectorSide, view: ConnectorFace["view"]): ConnectorFace {
  const { face } = connector;
  const isMirrored = (view === face.view) !== (side.id === face.ofSide);
  const own = side.cavities ? new Set<string>(side.cavities) : undefined;
  const grid = connector.cavities.map(({ x, y }) => ({ x: isMirrored ? -x : x, y }));
  const scale = STEP / nearest(grid);
  const left = Math.min(...grid.map((point) => point.x));
  const top = Math.min(...grid.map((point) => point.y));
  const span = { x: Math.max(...grid.map((p) => p.x)) - left, y: Math.max(...grid.map((p) => p.y)) - top };
  const body = bodyOf(face.shape, { x: span.x * scale, y: span.y * scale });
  const inset = { x: (body.width - span.x * scale) / 2, y: (body.height - span.y * scale) / 2 };
  const cavities = connector.cavities.flatMap((cavity, at): FaceCavity[] => {
    const point = grid[at];
    if (!point || (own && !own.has(cavity.id))) return [];
    return [
      {
        id: cavity.id,
        x: round(body.x + inset.x + (point.x - left) * scale),
        y: round(body.y + inset.y + (point.y - top) * scale),
        size: STEP * 0.82,
        ...(cavity.terminalMm !== undefined && { terminalMm: cavity.terminalMm }),
        isSealed: cavity.sealed ?? connector.sealed ?? false,
      },
    ];
  });
  const latch = markAt(mirroredSide(face.latch, isMirrored), body, { length: 44, depth: 12, isInside: false });
  const key = markAt(mirroredSide(face.key, isMirrored), body, { length: 16, depth: 9, isInside: true });
  return {
    connector: connector.id,
    side: sideKey(connector, side),
    view,
    viewName: view === "wire-side" ? "Wire-entry view" : "Mating-face view",
    shape: face.shape,
    ...(side.contacts !== undefined && { contacts: side.contacts }),
    width: round(body.width + 2 * OUTSIDE),
    height: round(body.height + 2 * OUTSIDE),
    body,
    cavities,
    ...(latch && { latch }),
    ...(key && { key }),
  };
}

/** Distance of the two nearest cavities in grid steps; 1 where there is only one. Faces are small, except in hostile files. */
function nearest(points: readonly { readonly x: number; readonly y: number }[]): number {
  const sorted = points.toSorted((a, b) => a.x - b.x || a.y - b.y);
  let least = Infinity;
  sorted.forEach((a, at) => {
    for (let next = at + 1; next < sorted.length; next++) {
      const b = sorted[next];
      if (!b || b.x - a.x >= least) break;
      const apart = Math.hypot(b.x - a.x, b.y - a.y);
      if (apart > 0) least = Math.min(least, apart);
    }
  });
  return least === Infinity ? 1 : least;
}

function bodyOf(
  shape: ConnectorFace["shape"],
  span: { readonly x: number; readonly y: number },
): ConnectorFace["body"] {
  const width = round(span.x + 2 * WALL);
  const height = round(span.y + 2 * WALL);
  if (shape === "rectangular") return { x: OUTSIDE, y: OUTSIDE, width, height };
  const across = Math.max(width, height);
  return { x: OUTSIDE, y: OUTSIDE, width: across, height: across };
}

function mirroredSide(side: Side, isMirrored: boolean): Side {
  if (!isMirrored) return side;
  if (side === "left") return "right";
  return side === "right" ? "left" : side;
}

interface MarkShape {
  readonly length: number;
  readonly depth: number;
  /** A key is a notch in the housing, a latch stands out of it. */
  readonly isInside: boolean;
}

function markAt(side: Side, body: ConnectorFace["body"], { length, depth, isInside }: MarkShape): FaceMark | undefined {
  if (side === "none") return undefined;
  const middle = { x: body.x + body.width / 2, y: body.y + body.height / 2 };
  const shift = isInside ? 0 : depth;
  switch (side) {
    case "top":
      return { side, x: middle.x - length / 2, y: body.y - shift, width: length, height: depth };
    case "bottom":
      return { side, x: middle.x - length / 2, y: body.y + body.height - depth + shift, width: length, height: depth };
    case "left":
      return { side, x: body.x - shift, y: middle.y - length / 2, width: depth, height: length };
    case "right":
      return { side, x: body.x + body.width - depth + shift, y: middle.y - length / 2, width: depth, height: length };
  }
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
