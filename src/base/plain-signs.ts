/** A text with one spelling for each sign, and where each of its characters stood before. */
export interface PlainSigns {
  readonly text: string;
  /** Place in the text as it was typed, for each character of `text` and for its end. */
  readonly places: readonly number[];
}

const MINUS = "\u2212";
const EN_DASH = "\u2013";
/** No-break, thin, figure, punctuation and narrow no-break space, and the one of Chinese type. */
const SPACES = /[\s\u00a0\u2000-\u200a\u202f\u205f\u3000]/u;
const MARKS_WITHOUT_WIDTH = /[\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufeff]/u;
/** Full-width forms, and units set as one character, such as the kilo-ohm of U+33C0. */
const COMPATIBLE = /[\uff01-\uff5e\u3380-\u33df\u2126\u00b5]/u;

/**
 * Writes the signs of a quantity in one way: minus (U+2212), en dash directly before a digit, every sort of space, typographic apostrophe, µ
 * (U+00B5, U+03BC), Ω (U+03A9, U+2126), full-width characters, units set as one character, digits of Arabic. Nothing that changes a value is
 * touched: superscripts, fractions and encircled digits stay as they are.
 *
 * Source: ISO 80000-1 for minus sign and spaces between groups, and the Unicode compatibility forms (NFKC); from memory.
 *
 * @param typed any text
 * @returns the text, with the place of each character in `typed`
 */
export function plainSigns(typed: string): PlainSigns {
  const places: number[] = [];
  let text = "";
  for (let at = 0; at < typed.length; at += 1) {
    const plain = plainSign(typed.charAt(at), typed.charAt(at + 1));
    text += plain;
    for (let count = 0; count < plain.length; count += 1) places.push(at);
  }
  return { text, places: [...places, typed.length] };
}

function plainSign(sign: string, next: string): string {
  if (sign === MINUS) return "-";
  if (sign === EN_DASH && /[0-9.,\uff10-\uff19]/u.test(next)) return "-";
  if (sign === "\u2019" || sign === "\u02bc") return "'";
  // Sign for decimals and for thousands of Arabic: neither can be taken for the other.
  if (sign === "\u066b") return ".";
  if (sign === "\u066c") return "'";
  if (/[\u0660-\u0669]/u.test(sign)) return String(sign.charCodeAt(0) - 0x0660);
  if (/[\u06f0-\u06f9]/u.test(sign)) return String(sign.charCodeAt(0) - 0x06f0);
  if (MARKS_WITHOUT_WIDTH.test(sign)) return "";
  if (SPACES.test(sign)) return " ";
  return COMPATIBLE.test(sign) ? sign.normalize("NFKC") : sign;
}
