/** One colour of a wire's insulation: its letter code, its name, and a swatch for the screen. */
export interface Colour {
  readonly code: string;
  readonly name: string;
  /** Red, green, blue as a hex text; our own choice for screens, the standard fixes letters only. */
  readonly swatch: string;
}

/**
 * Letter codes for colours in the order of the standard's own table.
 *
 * Source: IEC 60757 (see docs/sources.md). Swatches are ours.
 */
export const COLOURS: readonly Colour[] = [
  { code: "BK", name: "black", swatch: "#1b1b1d" },
  { code: "BN", name: "brown", swatch: "#7a4a21" },
  { code: "RD", name: "red", swatch: "#d3222a" },
  { code: "OG", name: "orange", swatch: "#f08a1d" },
  { code: "YE", name: "yellow", swatch: "#f4d21f" },
  { code: "GN", name: "green", swatch: "#23924a" },
  { code: "BU", name: "blue", swatch: "#2b62c4" },
  { code: "VT", name: "violet", swatch: "#7d3fa8" },
  { code: "GY", name: "grey", swatch: "#8b9096" },
  { code: "WH", name: "white", swatch: "#f6f6f2" },
  { code: "PK", name: "pink", swatch: "#f29ab8" },
  { code: "GD", name: "gold", swatch: "#c9a13b" },
  { code: "TQ", name: "turquoise", swatch: "#2fb7b4" },
  { code: "SR", name: "silver", swatch: "#c4c8cc" },
];

const BY_CODE: ReadonlyMap<string, Colour> = new Map(COLOURS.map((colour) => [colour.code, colour]));

/** A wire colour: base first, tracer second, in the order the document gives them. */
export type WireColour = readonly [base: Colour] | readonly [base: Colour, tracer: Colour];

/**
 * Reads a wire colour. `WH` is one colour, `WH/RD` white with a red tracer. Joined codes are read too: `RDBU`, and `GNYE` for the
 * protective green and yellow. The order is kept as written: base before tracer is an extension of ours, the standard itself joins codes
 * in its table order.
 *
 * @param text The colour as written in the document.
 * @returns The colours, or undefined if a code is not one of the standard's.
 * @example
 * ```ts
 * import { readColour } from "ohmward/harness-model";
 * expect(readColour("WH/RD")?.map((colour) => colour.name)).toEqual(["white", "red"]);
 * expect(readColour("B")).toBeUndefined();
 * ```
 * Source: IEC 60757; the slash is described in docs/formats.md.
 */
export function readColour(text: string): WireColour | undefined {
  // The standard joins the codes of one item; the slash is ours.
  const parts = /^[A-Z]{4}$/.test(text) ? [text.slice(0, 2), text.slice(2)] : text.split("/");
  const base = BY_CODE.get(parts[0] ?? "");
  if (!base || parts.length > 2) return undefined;
  if (parts.length === 1) return [base];
  const tracer = BY_CODE.get(parts[1] ?? "");
  return tracer && [base, tracer];
}

/** A colour in words, such as `white with red tracer`; the text itself if it is not a known code. */
export function describeColour(text: string): string {
  const colour = readColour(text);
  if (!colour) return text;
  return colour[1] ? `${colour[0].name} with ${colour[1].name} stripe` : colour[0].name;
}
