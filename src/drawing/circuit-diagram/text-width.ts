/**
 * Advance widths of the letters U+0020 to U+007E and U+00A0 to U+00FF, in thousandths of the size of the type.
 *
 * Source: Atkinson Hyperlegible Next, weight 400, `@fontsource-variable/atkinson-hyperlegible-next` 5.3.0 (licence OFL-1.1), measured
 * with `measureText` of a browser at 1000 px.
 */
// prettier-ignore
const BASIC: readonly number[] = [280,286,301,651,592,919,731,160,299,299,485,606,210,362,210,387,648,407,548,576,614,588,598,510,615,595,210,210,553,628,553,480,778,626,613,645,669,569,552,694,694,392,512,631,541,824,693,714,592,724,614,592,558,690,593,856,623,575,607,317,387,344,552,372,243,525,566,485,564,538,314,558,550,252,245,492,262,845,550,548,566,574,349,471,326,540,461,684,481,449,460,344,237,344,555];
// prettier-ignore
const LATIN: readonly number[] = [280,286,485,610,580,575,237,528,368,798,371,562,602,0,798,356,352,579,382,383,243,576,509,240,265,256,380,562,816,820,867,450,626,626,626,626,626,626,891,645,569,569,569,569,392,392,392,392,689,693,714,714,714,714,714,532,714,690,690,690,690,575,592,582,525,525,525,525,525,525,866,485,538,538,538,538,252,252,252,266,565,550,548,548,548,548,548,606,548,540,540,540,540,449,566,449];
/** Width of every letter of Atkinson Hyperlegible Mono, weight 700 (`@fontsource/atkinson-hyperlegible-mono` 5.3.0, OFL-1.1), measured so. */
const MONO = 632;
/** Letters that the two tables do not have, such as Ω: as wide as the widest capital. */
const OTHER = 860;

/** The two faces of the diagram: ids are written in `mono`, all else in `plain`. */
export type Face = "plain" | "mono";

/**
 * How wide a text is. A written text is held to this width (`textLength`), so that no other face of a device can make it wider.
 *
 * @param text The text, on one line.
 * @param face Its face.
 * @param size Size of the type in px.
 * @returns The width in px.
 * @example
 * ```ts
 * import { textWidth } from "ohmward/drawing";
 * expect(textWidth("W30", "mono", 10)).toBeCloseTo(18.96);
 * expect(textWidth("M", "plain", 10)).toBeGreaterThan(textWidth("i", "plain", 10));
 * ```
 */
export function textWidth(text: string, face: Face, size: number): number {
  let thousandths = 0;
  for (const letter of text) thousandths += widthOf(letter.codePointAt(0) ?? 0, face);
  return (thousandths * size) / 1000;
}

function widthOf(code: number, face: Face): number {
  const isKnown = (code >= 0x20 && code <= 0x7e) || (code >= 0xa0 && code <= 0xff);
  if (face === "mono") return isKnown ? MONO : OTHER;
  return BASIC[code - 0x20] ?? LATIN[code - 0xa0] ?? OTHER;
}
