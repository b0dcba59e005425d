import type { DrawnThing, Layout } from "./layout.ts";
import { placeNames, type NamedPoint, type NameSide } from "./place-names.ts";
import { shortName } from "./short-name.ts";
import type { XY } from "./xy.ts";

/** Sizes of signs and letters of a written drawing, in its units. They stay as they are however far things are spread. */
export const SVG_SIZES = { letter: 8.2, line: 15, font: 13, halfWidth: 11, halfHeight: 8 } as const;

/** How far things are spread, at most, to make room for names. */
const SPREADS = [1, 1.5, 2, 3, 4, 6] as const;

/** A text on the drawing that names must not cover. */
export interface TakenText extends XY {
  readonly text: string;
}

/** Where names stand, and how far the drawing is spread so that they have room. */
export interface SvgNames {
  readonly spread: number;
  /** The side of each name, by key of the thing. */
  readonly sides: ReadonlyMap<string, NameSide>;
}

/**
 * Finds the smallest spread at which every thing of a drawing has room for its name; the widest one if none is enough.
 *
 * @param layout The drawing.
 * @param taken Texts that are written anyway, at the points of the layout.
 */
export function placeSvgNames(layout: Layout, taken: readonly TakenText[]): SvgNames {
  const things = [...layout.things];
  let best: SvgNames = { spread: 1, sides: new Map() };
  for (const spread of SPREADS) {
    const sides = placeNames(
      things.map(([, thing]) => namedPoint(thing, spread)),
      taken.map(({ x, y, text }) => {
        return { x: x * spread, y: y * spread, width: widthOf(text) + 6, height: SVG_SIZES.line + 4 };
      }),
    );
    best = { spread, sides: new Map(things.map(([key], at) => [key, sides[at] ?? "none"])) };
    if (!sides.includes("none")) break;
  }
  return best;
}

function namedPoint(thing: DrawnThing, spread: number): NamedPoint {
  const { line, halfWidth, halfHeight } = SVG_SIZES;
  return {
    x: thing.x * spread,
    y: thing.y * spread,
    width: widthOf(shortName(thing.id)),
    height: line,
    halfWidth,
    halfHeight,
  };
}

function widthOf(text: string): number {
  return [...text].length * SVG_SIZES.letter;
}
