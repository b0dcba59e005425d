import { addTo } from "../base/index.ts";
import type { XY } from "./xy.ts";

/** Where a name stands at its thing; `none` where every side is taken. */
export type NameSide = "below" | "above" | "right" | "left" | "none";

/** A thing with a name to be written at it. All lengths are in one unit, such as screen pixels. */
export interface NamedPoint extends XY {
  /** Room of the name. */
  readonly width: number;
  readonly height: number;
  /** Half the room of the thing itself. */
  readonly halfWidth: number;
  readonly halfHeight: number;
}

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const SIDES: readonly Exclude<NameSide, "none">[] = ["below", "above", "right", "left"];
const GAP = 2;
/** Edge of a cell of the grid that boxes are looked up in. */
const CELL = 64;

/**
 * Chooses a side for each name so that no name covers another name or thing. What comes first in the list is served first.
 *
 * @param points Things with names, most important first.
 * @param taken Boxes that are taken already, such as names of wires, by centre and size.
 * @returns A side for each, in the same order.
 */
export function placeNames(
  points: readonly NamedPoint[],
  taken: readonly (XY & { readonly width: number; readonly height: number })[] = [],
): readonly NameSide[] {
  const grid = new Map<string, Box[]>();
  points.forEach(({ x, y, halfWidth, halfHeight }) => {
    put(grid, { left: x - halfWidth, right: x + halfWidth, top: y - halfHeight, bottom: y + halfHeight });
  });
  for (const { x, y, width, height } of taken)
    put(grid, { left: x - width / 2, right: x + width / 2, top: y - height / 2, bottom: y + height / 2 });
  return points.map((point) => {
    const side = SIDES.find((each) => isFree(grid, boxAt(point, each)));
    if (side === undefined) return "none";
    put(grid, boxAt(point, side));
    return side;
  });
}

function boxAt({ x, y, width, height, halfWidth, halfHeight }: NamedPoint, side: Exclude<NameSide, "none">): Box {
  switch (side) {
    case "below":
      return {
        left: x - width / 2,
        right: x + width / 2,
        top: y + halfHeight + GAP,
        bottom: y + halfHeight + GAP + height,
      };
    case "above":
      return {
        left: x - width / 2,
        right: x + width / 2,
        top: y - halfHeight - GAP - height,
        bottom: y - halfHeight - GAP,
      };
    case "right":
      return {
        left: x + halfWidth + GAP,
        right: x + halfWidth + GAP + width,
        top: y - height / 2,
        bottom: y + height / 2,
      };
    case "left":
      return {
        left: x - halfWidth - GAP - width,
        right: x - halfWidth - GAP,
        top: y - height / 2,
        bottom: y + height / 2,
      };
  }
}

function* cellsOf({ left, right, top, bottom }: Box): Iterable<string> {
  for (let column = Math.floor(left / CELL); column <= Math.floor(right / CELL); column++)
    for (let row = Math.floor(top / CELL); row <= Math.floor(bottom / CELL); row++) yield `${column} ${row}`;
}

function put(grid: Map<string, Box[]>, box: Box): void {
  for (const cell of cellsOf(box)) {
    addTo(grid, cell, box);
  }
}

function isFree(grid: ReadonlyMap<string, readonly Box[]>, box: Box): boolean {
  for (const cell of cellsOf(box)) {
    for (const other of grid.get(cell) ?? []) {
      const isApart =
        other.right <= box.left || other.left >= box.right || other.bottom <= box.top || other.top >= box.bottom;
      if (!isApart) return false;
    }
  }
  return true;
}
