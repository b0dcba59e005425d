import { describeColour, readColour } from "../harness-model/index.ts";

/** A way of hatching that tells a colour without colour. */
export type HatchPattern =
  "plain" | "dots" | "vertical" | "horizontal" | "falling" | "rising" | "grid" | "cross" | "bricks" | "waves";

/**
 * The hatching of each colour code. Red, blue, green, violet, black, white and yellow are hatched as engravers have shown the colours
 * of coats of arms since the 17th century (upright, level, falling, rising, grid, plain, dots); the others are our own.
 *
 * Source: common practice, no source.
 */
export const HATCHES: ReadonlyMap<string, HatchPattern> = new Map([
  ["RD", "vertical"],
  ["BU", "horizontal"],
  ["GN", "falling"],
  ["VT", "rising"],
  ["BK", "grid"],
  ["WH", "plain"],
  ["YE", "dots"],
  ["BN", "cross"],
  ["OG", "bricks"],
  ["GY", "waves"],
  ["PK", "vertical"],
  ["GD", "dots"],
  ["TQ", "horizontal"],
  ["SR", "waves"],
]);

/** How a wire colour is shown: letters first, then swatch, tracer and hatching. */
export interface ColourMark {
  /** The letters as the document has them; `?` where it names no colour. */
  readonly letters: string;
  /** In words, such as `white with red stripe`. */
  readonly name: string;
  /** Colour of the insulation as a hex text; absent where the letters are not known. */
  readonly base?: string;
  readonly hatch: HatchPattern;
  /** Colour of the tracer as a hex text. */
  readonly tracer?: string;
  /** Dash lengths of the tracer on a line, in line widths: drawn, left out. */
  readonly tracerDash?: readonly [number, number];
  /** Whether dark letters read better on the base than light ones. */
  readonly isLight: boolean;
}

const TRACER_DASH = [1.6, 1.6] as const;

/**
 * How to show a wire colour so that colour is never the only carrier.
 *
 * @param colour Colour of a wire as written in the document.
 * @example
 * ```ts
 * import { colourMark } from "ohmward/drawing";
 * const mark = colourMark("WH/RD");
 * expect([mark.letters, mark.name, mark.hatch]).toEqual(["WH/RD", "white with red stripe", "plain"]);
 * expect(colourMark(undefined).letters).toBe("?");
 * ```
 */
export function colourMark(colour: string | undefined): ColourMark {
  const read = colour === undefined ? undefined : readColour(colour);
  if (colour === undefined || !read) {
    return { letters: colour ?? "?", name: colour ?? "colour not known", hatch: "plain", isLight: true };
  }
  const [base, tracer] = read;
  return {
    letters: colour,
    name: describeColour(colour),
    base: base.swatch,
    hatch: HATCHES.get(base.code) ?? "plain",
    isLight: luminance(base.swatch) > 0.3,
    ...(tracer && { tracer: tracer.swatch, tracerDash: TRACER_DASH }),
  };
}

/** Relative luminance of a hex colour. Source: WCAG 2.2. */
function luminance(hex: string): number {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}
