import { defined } from "./defined.ts";
import {
  type DecimalSign,
  symbolOf,
  type QuantityUnit,
  scanQuantity,
  type ScanFault,
  type ScannedQuantity,
  readUnit,
} from "./scan-quantity.ts";

/** What can be expected of a value, without its sign, in the unit without prefix. */
export interface QuantityScale {
  /** A value other than 0 that is smaller is asked about. */
  readonly low: number;
  /** A value that is greater is asked about. */
  readonly high: number;
  /** Greater than this it cannot be: one of two ways to read a text that would be is left out. */
  readonly most: number;
}

/** What is known about a text before it is read. */
export interface QuantityQuestion {
  /** Units that fit here; empty for a plain number. A number without unit is in the first one. */
  readonly units: readonly QuantityUnit[];
  /** A unit by name that stands for itself, such as one that a document gives. */
  readonly ownUnit?: string;
  /** The unit of a number without unit and prefix, such as `kΩ`; the first of `units` where absent. */
  readonly assume?: string;
  /** The sign before decimals, where it is certain. */
  readonly decimal?: DecimalSign;
  /** What can be expected here. */
  readonly scale?: QuantityScale;
  /** Whether this is read off a meter, which may show over range. */
  readonly isMeter?: boolean;
}

/** One way to take a text. */
export interface QuantityWay {
  /** For a person to choose by: `1.2 kΩ`. */
  readonly label: string;
  /** What to write so that it is taken as this and nothing else. */
  readonly write: string;
}

/** What a text says. */
export type QuantityReading =
  | {
      readonly kind: "value";
      /** In `unit` without prefix; the number as it stands where no unit is written. */
      readonly value: number;
      /** The unit as written, else the one assumed; absent for a plain number. */
      readonly unit?: QuantityUnit;
      /** Its symbol with prefix, `kΩ` or `in`; empty for a plain number. */
      readonly symbol: string;
      readonly isUnitWritten: boolean;
    }
  /** The meter shows more than it can read. */
  | { readonly kind: "overload" }
  /** The text can be taken in more than one way, or the value is far from what can be expected: a person has to say. */
  | { readonly kind: "question"; readonly why: string; readonly ways: readonly QuantityWay[] }
  /** No quantity; `at` is the place in the text that stands in the way, counted from 0; `instead` is an example. */
  | { readonly kind: "refusal"; readonly why: string; readonly at: number; readonly instead: string };

const MOST_CHARACTERS = 80;
/** Says that a value far from what is expected, or a capital M, is meant as written. */
const SURE = /\s+sure$/iu;
/** How meters of few digits show over range, and how a person may begin to write a decimal. */
const ONE_AND_POINT = /^\s*1\s*\.$/u;
const OVERLOAD_WAY: QuantityWay = { label: "over range (OL)", write: "OL" };

/**
 * Reads a quantity as people type it, the only reader of numbers with units in this program: decimal point or comma, groups of thousands,
 * prefixes, codes such as `4k7`, words for units, signs of other keyboards. It never guesses: what can be taken in two ways is a question.
 * `sure` after a value says that it is meant as written.
 *
 * Source: IEC 60062 for codes with a letter in place of the decimal sign, ISO 80000-1 for groups and signs; from memory.
 *
 * @param typed the text
 * @param question what is known about it
 * @returns a value, over range, a question with the ways to choose from, or a refusal with reason, place and an example
 *
 * @example
 * ```ts
 * import { readQuantity } from "ohmward/base";
 *
 * expect(readQuantity("4k7", { units: ["Ω"] })).toMatchObject({ kind: "value", value: 4700, unit: "Ω" });
 * const asked = readQuantity("1,200", { units: ["Ω"] });
 * expect(asked.kind === "question" && asked.ways.map(({ write }) => write)).toEqual(["1.2 Ω", "1200 Ω"]);
 * ```
 */
export function readQuantity(typed: string, question: QuantityQuestion): QuantityReading {
  const { text, places } = plainSigns(typed);
  const refuse = ({ why, at }: Omit<ScanFault, "kind">): QuantityReading => {
    const place = places[Math.min(at, text.length)] ?? typed.length;
    return { kind: "refusal", why, at: place, instead: exampleOf(question) };
  };
  if (text.trim() === "") return refuse({ why: "there is no value", at: 0 });
  if (text.length > MOST_CHARACTERS) return refuse({ why: "the number is too long", at: MOST_CHARACTERS });
  const body = text.replace(SURE, "").trimEnd();
  const isOneAndPoint = question.isMeter === true && ONE_AND_POINT.test(body);
  if (question.isMeter && isOverloadText(body, question.units)) return { kind: "overload" };
  const scanned = scanQuantity(isOneAndPoint ? "1" : body, question);
  if (scanned.kind === "fault") return refuse(scanned);
  const found = scanned.numbers.map((number) => takenAs(scanned, number));
  if (found.some(({ value, isZero }) => !Number.isFinite(value) || (value === 0 && !isZero)))
    return refuse({ why: "the number is too large or too small", at: 0 });
  if (isOneAndPoint) {
    const ways = [...found.map((each) => wayOf(each, question.scale)), OVERLOAD_WAY];
    return { kind: "question", why: "some meters show OL (over range) as 1 and a point", ways };
  }
  return judge(scanned, found, question.scale, SURE.test(text));
}

interface Taken {
  /** The number before the unit. */
  readonly number: number;
  readonly symbol: string;
  readonly value: number;
  readonly isZero: boolean;
  readonly isDoubtful: boolean;
}

function takenAs({ unit }: ScannedQuantity, digits: string): Taken {
  const [mantissa = "", exponent = "0"] = digits.toLowerCase().split("e");
  // Put together as a text, so that the value is the nearest one there is: 4.7e-3, not 4.7 times 0.001.
  const scaled = Number(`${mantissa}e${Number(exponent) + unit.power}`);
  const value = unit.factor === 1 ? scaled : Number((scaled * unit.factor).toPrecision(12));
  return {
    ...{ number: Number(digits), symbol: unit.symbol, value: value + 0 },
    ...{ isZero: !/[1-9]/u.test(mantissa), isDoubtful: unit.isCaseDoubtful },
  };
}

function judge(
  scanned: ScannedQuantity,
  found: readonly Taken[],
  scale: QuantityScale | undefined,
  isSure: boolean,
): QuantityReading {
  const values = possible(found, scale);
  const ask = (why: string, ways: readonly Taken[]): QuantityReading => ({
    ...{ kind: "question", why },
    ways: ways.toSorted((a, b) => Math.abs(a.value) - Math.abs(b.value)).map((each) => wayOf(each, scale)),
  });
  const [only] = values;
  if (!only) throw new RangeError("Cannot judge a quantity that has no number");
  const others = otherPrefixes(scanned, only.number);
  if (values.length > 1) return ask("a comma or point can stand before decimals or between thousands", values);
  if (!isSure && scanned.unit.isCaseDoubtful) {
    const near = others.filter(({ value, symbol }) => (scale ? isInScale(value, scale) : symbol.startsWith("m")));
    return ask("m is milli and M is mega", possible([...near, only], scale));
  }
  if (!isSure && scale && !isInScale(only.value, scale)) {
    const near = others.filter(({ value }) => isInScale(value, scale));
    return ask(`${labelOf(only)} is far from the expected values here`, possible([...near, only], scale));
  }
  const { unit, isUnitWritten } = scanned;
  return { kind: "value", value: only.value, ...defined({ unit: unit.unit }), symbol: unit.symbol, isUnitWritten };
}

/** Without what cannot be, unless nothing is left then. */
function possible(found: readonly Taken[], scale: QuantityScale | undefined): readonly Taken[] {
  const left = found.filter(({ value }) => Math.abs(value) <= (scale?.most ?? Infinity));
  return left.length > 0 ? left : found;
}

function isInScale(value: number, { low, high }: QuantityScale): boolean {
  return value === 0 || (Math.abs(value) >= low && Math.abs(value) <= high);
}

/** The same number with the other prefixes of a hand meter, as a person writes it: 1200 mΩ as 1.2 Ω. */
function otherPrefixes({ unit: { unit, power } }: ScannedQuantity, number: number): readonly Taken[] {
  if (unit !== "V" && unit !== "A" && unit !== "Ω") return [];
  const powers = unit === "Ω" ? [6, 3, 0, -3] : [0, -3];
  return powers
    .filter((each) => each !== power)
    .map((each): Taken => {
      const value = shifted(number, each);
      const shown = powers.find((most) => Math.abs(value) >= 10 ** most) ?? -3;
      const symbol = symbolOf(unit, shown);
      return { number: shifted(value, -shown), symbol, value, isZero: value === 0, isDoubtful: false };
    });
}

/** Times a power of ten, to the nearest number there is. */
function shifted(number: number, power: number): number {
  const [mantissa = "", exponent = "0"] = number.toExponential().split("e");
  return Number(`${mantissa}e${Number(exponent) + power}`);
}

function wayOf(taken: Taken, scale: QuantityScale | undefined): QuantityWay {
  const label = labelOf(taken);
  const isAsked = taken.isDoubtful || (scale !== undefined && !isInScale(taken.value, scale));
  return { label, write: isAsked ? `${label} sure` : label };
}

function labelOf({ number, symbol }: Taken): string {
  return `${plainNumber(number)} ${symbol}`.trim();
}

function exampleOf({ units, ownUnit, isMeter }: QuantityQuestion): string {
  const [first] = units;
  const example = first === "V" ? "12.4 V" : first === "Ω" ? "0.6 ohm" : `2.5 ${first ?? ownUnit ?? ""}`.trim();
  return isMeter ? `${example}, or OL if the display shows it` : example;
}

/** A text with one spelling for each sign, and where each of its characters stood before. */
interface PlainSigns {
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
function plainSigns(typed: string): PlainSigns {
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

/** As meters show it and people say it, without signs between the words. 0L is how seven segments write OL. */
const OVERLOAD: ReadonlySet<string> = new Set([
  ...["ol", "0l", "0vl", "ovl", "ovld", "over", "overrange", "overload", "overlimit", "overflow", "outofrange"],
]);
/** What only a meter on ohms means by it: on volts an open line reads no such thing. */
const OPEN: ReadonlySet<string> = new Set([
  ...["open", "openline", "openloop", "opencircuit", "inf", "infinite", "infinity", "∞"],
]);

/**
 * Whether a text is a meter's over range: `OL`, `0.L`, `O.L MΩ`, `over range`; on ohms also `open line` and `∞`.
 * Common practice, no source.
 *
 * @param text signs as `plainSigns` writes them
 * @param units the units that are read here
 */
function isOverloadText(text: string, units: readonly QuantityUnit[]): boolean {
  const words = text.trim().toLowerCase();
  const isOverload = (said: string): boolean => {
    const plain = said.replace(/[\s.-]/gu, "");
    return OVERLOAD.has(plain) || (OPEN.has(plain) && units.includes("Ω"));
  };
  if (isOverload(words)) return true;
  // A display shows the unit beside it.
  const [, said = "", unit = ""] = /^(.*\S)\s+(\S+)$/u.exec(text.trim()) ?? [];
  return isOverload(said.toLowerCase()) && readUnit(unit, units) !== undefined;
}

/**
 * Writes a number with a point so that it can be taken for nothing else: three decimals get a fourth, as `1.234` could be thousands.
 *
 * @param value a finite number
 * @returns for example `12.4`, `1.2340`, `0`
 *
 * @example
 * ```ts
 * import { plainNumber } from "ohmward/base";
 *
 * expect(plainNumber(1.234)).toBe("1.2340");
 * expect(plainNumber(-0)).toBe("0");
 * ```
 */
export function plainNumber(value: number): string {
  const text = String(value + 0);
  return /^-?[1-9]\d{0,2}\.\d{3}$/u.test(text) ? `${text}0` : text;
}

/**
 * What a person is told about a text that is no plain value: the ways to take it and how to write each, or what is wrong and where.
 *
 * @param typed the text as it was typed
 * @param reading what was read
 * @returns a sentence or two, with a full stop at the end
 *
 * @example
 * ```ts
 * import { quantityProblem, readQuantity } from "ohmward/base";
 *
 * const reading = readQuantity("1,200", { units: ["Ω"] });
 * expect(reading.kind !== "value" && quantityProblem("1,200", reading)).toBe(
 *   '"1,200" can mean 1.2 Ω or 1200 Ω: a comma or point can stand before decimals or between thousands. Write "1.2 Ω" or "1200 Ω".',
 * );
 * ```
 */
export function quantityProblem(typed: string, reading: Exclude<QuantityReading, { kind: "value" }>): string {
  const text = typed.length > 80 ? `${typed.slice(0, 77)}...` : typed;
  if (reading.kind === "overload") return `"${text}" is over range. Enter a value here.`;
  if (reading.kind === "refusal")
    return `"${text}" cannot be read at character ${reading.at + 1}: ${reading.why}. Write a value such as ${reading.instead}.`;
  const { ways, why } = reading;
  const labels = ways.map(({ label }) => label).join(" or ");
  const writes = ways.map(({ write }) => `"${write}"`).join(" or ");
  return ways.length === 1
    ? `Check "${text}": ${why}. Write ${writes} if you mean it.`
    : `"${text}" can mean ${labels}: ${why}. Write ${writes}.`;
}
