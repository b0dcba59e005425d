import { readUnit, type Unit } from "./units.ts";

/** The sign before the decimals. */
export type DecimalSign = "point" | "comma";

/** What a cell with a number says. */
export type NumberReading =
  | { readonly kind: "number"; readonly value: number; readonly unit?: Unit }
  /** A comma or point that may stand before decimals or between thousands. */
  | { readonly kind: "ambiguous" }
  | { readonly kind: "none" };

const NUMBER = /^([+-]?)\s*(\d[\d.,' \u00a0\u202f]*|[.,]\d+)\s*([^\d\s].*)?$/u;
/** `#18`, `18 AWG`, `AWG 18`, `2/0`: gauge numbers, where `2/0` is size 00. */
const GAUGE = /^(?:awg|ga\.?|#)?\s*(\d{1,2})(\/0)?\s*(?:awg|ga\.?|gauge)?$/iu;
const ZEROS = /^(?:awg|#)?\s*(0{1,4})\s*(?:awg)?$/iu;

/**
 * Reads a length or size from a cell, with the unit if the cell has one.
 *
 * @param text The cell.
 * @param decimal The decimal sign of the file; undefined if it is not known, which leaves `1,234` ambiguous.
 */
export function readNumber(text: string, decimal: DecimalSign | undefined): NumberReading {
  const match = NUMBER.exec(text.trim());
  if (!match) return { kind: "none" };
  const digits = readDigits((match[2] ?? "").replace(/[' \u00a0\u202f]/gu, ""), decimal);
  if (digits === "ambiguous" || digits === undefined) return { kind: digits === undefined ? "none" : "ambiguous" };
  const value = match[1] === "-" ? -digits : digits;
  const rest = (match[3] ?? "").trim();
  if (rest === "") return { kind: "number", value };
  const unit = readUnit(rest);
  return unit === undefined ? { kind: "none" } : { kind: "number", value, unit };
}

/**
 * Reads a gauge number, such as `18`, `AWG 18` or `2/0`. Sizes above 0 are -1 for 00 or 2/0, -2 for 000, -3 for 0000.
 *
 * @param text The cell.
 * @returns The number, or undefined if the cell holds no gauge.
 */
export function readGauge(text: string): number | undefined {
  const zeros = ZEROS.exec(text.trim())?.[1];
  if (zeros !== undefined) return 1 - zeros.length;
  const match = GAUGE.exec(text.trim());
  const number = Number(match?.[1]);
  if (!match || (match[2] === undefined ? number > 50 : number < 1 || number > 4)) return undefined;
  return match[2] === undefined ? number : 1 - number;
}

function readDigits(text: string, decimal: DecimalSign | undefined): number | "ambiguous" | undefined {
  const sign = decimal ?? findDecimalSign([text]);
  if (sign === undefined) return /[.,]/u.test(text) ? "ambiguous" : Number(text);
  const [point, thousands] = sign === "comma" ? [",", "."] : [".", ","];
  const [whole = "", ...parts] = text.split(point);
  if (parts.length > 1) return undefined;
  if (whole.includes(thousands) && !/^\d{1,3}(?:[.,]\d{3})+$/u.test(whole)) return undefined;
  if (parts[0]?.includes(thousands) === true) return undefined;
  const value = Number(`${whole.replaceAll(thousands, "") || "0"}.${parts[0] ?? "0"}`);
  return Number.isFinite(value) ? value : undefined;
}

/**
 * Finds the decimal sign from numbers that can only be read one way: `0,75`, `1.234,5`, `12.5`.
 *
 * @param texts Cells that may hold numbers.
 * @returns The sign; undefined if no cell tells, or if cells contradict each other.
 */
export function findDecimalSign(texts: readonly string[]): DecimalSign | undefined {
  const found = new Set<DecimalSign>();
  for (const text of texts) {
    const number = /^[+-]?\s*(\d[\d.,']*|[.,]\d+)/u.exec(text.trim())?.[1];
    const last = number === undefined ? undefined : /[.,](?=[^.,]*$)/u.exec(number);
    if (number === undefined || !last) continue;
    const decimals = number.length - last.index - 1;
    const others = number.slice(0, last.index);
    const isTold = decimals !== 3 || /^0?$/u.test(others) || /[.,]/u.test(others.replaceAll(last[0], ""));
    const isThousands = others.includes(last[0]);
    if (isThousands) found.add(last[0] === "," ? "point" : "comma");
    else if (isTold) found.add(last[0] === "," ? "comma" : "point");
  }
  const [only] = found;
  return found.size === 1 ? only : undefined;
}
