/** The sign before the decimals. */
export type DecimalSign = "point" | "comma";

/** One way to read a run of digits and signs. */
export interface NumberWay {
  /** Digits with a point, without groups: `1200.5`. */
  readonly digits: string;
  /** The sign that stands before the decimals. */
  readonly decimal?: "." | ",";
  /** The sign between groups of digits. */
  readonly group?: "." | "," | "'" | " ";
}

const SIGN: Readonly<Record<DecimalSign, "." | ",">> = { point: ".", comma: "," };
const GROUPS = [".", ",", "'", " "] as const;

/**
 * Every way to read a run of digits with points, commas, spaces and apostrophes: `1,200` is 1.2 or 1200, `0,5` only 0.5, `1.200,5` only
 * 1200.5. Groups are of three digits, in the manner of India also of two before the last three; the first group does not start with 0.
 * Spaces may part decimals as well.
 *
 * Source: ISO 80000-1 (groups of three, comma or point before decimals, the same spacing on both sides); from memory. Points, commas,
 * apostrophes between groups: common practice, no source.
 *
 * @param body digits `0` to `9` and the signs `.`, `,`, `'` and space, without a sign before it
 * @param decimal the sign before decimals where it is known; both are possible where absent
 * @returns the ways, each value once; none if it is no number
 *
 * @example
 * ```ts
 * import { numberWays } from "ohmward/base";
 *
 * expect(numberWays("1,200").map(({ digits }) => digits)).toEqual(["1.200", "1200"]);
 * expect(numberWays("1,200", "point").map(({ digits }) => digits)).toEqual(["1200"]);
 * ```
 */
export function numberWays(body: string, decimal?: DecimalSign): readonly NumberWay[] {
  const signs = decimal === undefined ? ([".", ","] as const) : [SIGN[decimal]];
  const ways = signs.flatMap((sign) => withDecimals(body, sign));
  const grouped = GROUPS.filter((group) => decimal === undefined || group !== SIGN[decimal]);
  const whole = grouped.flatMap((group): NumberWay[] => {
    const digits = withoutGroups(body, group);
    return digits === undefined ? [] : [{ digits, group }];
  });
  if (/^\d+$/u.test(body)) return [{ digits: body }];
  return [...ways, ...whole];
}

function withDecimals(body: string, decimal: "." | ","): readonly NumberWay[] {
  const [before = "", after, ...more] = body.split(decimal);
  if (after === undefined || more.length > 0 || before + after === "") return [];
  const fraction = /^\d*$/u.test(after) ? after : /^\d{3}(?: \d{3})*(?: \d{1,3})?$/u.test(after) ? after : undefined;
  if (fraction === undefined) return [];
  const digits = `.${fraction.replaceAll(" ", "")}`;
  if (/^\d*$/u.test(before)) return [{ digits: (before || "0") + (digits === "." ? "" : digits), decimal }];
  return GROUPS.flatMap((group): NumberWay[] => {
    const whole = group === decimal ? undefined : withoutGroups(before, group);
    return whole === undefined ? [] : [{ digits: whole + (digits === "." ? "" : digits), decimal, group }];
  });
}

/** The digits of a number in groups, at least two of them; undefined if it is none. */
function withoutGroups(text: string, group: NonNullable<NumberWay["group"]>): string | undefined {
  const parts = text.split(group);
  const [first = "", ...rest] = parts;
  if (rest.length === 0 || !/^[1-9]\d{0,2}$/u.test(first)) return undefined;
  const isThrees = rest.every((part) => /^\d{3}$/u.test(part));
  const isIndian =
    group === "," &&
    rest.length > 1 &&
    first.length < 3 &&
    rest.every((part, at) => (at === rest.length - 1 ? /^\d{3}$/u : /^\d{2}$/u).test(part));
  return isThrees || isIndian ? parts.join("") : undefined;
}

/** A unit that a quantity is given in, in its plain form without prefix. */
export type QuantityUnit = "V" | "A" | "Ω" | "W" | "Hz" | "%" | "°C" | "bar" | "kPa" | "mm" | "mm²" | "min";

/** A unit as it was written. */
export interface WrittenUnit {
  /** Absent where a prefix stands alone, as in `2.2 k`. */
  readonly unit?: QuantityUnit;
  /** The power of ten of the prefix. */
  readonly power: number;
  /** How many of `unit` it is apart from the prefix: 25.4 for an inch. */
  readonly factor: number;
  /** Its symbol: `mV`, `kΩ`, `in`. */
  readonly symbol: string;
  /** Whether the capital M may have been meant as m: nobody measures megavolts here, and a text all in capitals does not tell. */
  readonly isCaseDoubtful: boolean;
}

interface UnitRow {
  readonly unit: QuantityUnit;
  readonly symbol: string;
  readonly factor?: number;
  readonly takesPrefix?: boolean;
  /** In small letters. */
  readonly words: readonly string[];
}

/**
 * Source of symbols and prefixes: BIPM, The International System of Units (SI Brochure), 9th edition, sections 2 and 3; R for ohm: IEC 60062,
 * from memory. The inch is 25.4 mm and the foot 304.8 mm by international agreement of 1959. Words of other languages: common practice, no
 * source.
 */
const UNITS: readonly UnitRow[] = [
  {
    unit: "V",
    symbol: "V",
    takesPrefix: true,
    words: ["v", "volt", "volts", "voltio", "voltios", "wolt", "wolty", "woltów", "voltti", "volttia", "в", "вольт"],
  },
  {
    unit: "A",
    symbol: "A",
    takesPrefix: true,
    words: [
      ...["a", "amp", "amps", "ampere", "amperes", "ampère", "ampères", "amperio", "amperios", "amper", "ampery"],
      ...["amperów", "ampeeri", "ampeeria", "ампер", "а"],
    ],
  },
  {
    unit: "Ω",
    symbol: "Ω",
    takesPrefix: true,
    words: ["ω", "r", "ohm", "ohms", "ohmio", "ohmios", "ohmia", "ohmi", "om", "omy", "omów", "ом"],
  },
  { unit: "W", symbol: "W", takesPrefix: true, words: ["w", "watt", "watts", "vatio", "vatios"] },
  { unit: "Hz", symbol: "Hz", takesPrefix: true, words: ["hz", "hertz"] },
  { unit: "%", symbol: "%", words: ["%", "percent", "per cent", "prozent"] },
  { unit: "°C", symbol: "°C", words: ["°c", "℃", "c", "celsius", "deg c", "grad celsius"] },
  { unit: "bar", symbol: "bar", takesPrefix: true, words: ["bar"] },
  { unit: "kPa", symbol: "kPa", words: ["kpa"] },
  { unit: "mm", symbol: "mm", words: ["mm", "millimetre", "millimeter", "millimetres", "millimeters"] },
  { unit: "mm", symbol: "cm", factor: 10, words: ["cm", "centimetre", "centimeter", "centimetres", "centimeters"] },
  { unit: "mm", symbol: "m", factor: 1000, words: ["m", "metre", "meter", "metres", "meters", "metro", "metros"] },
  { unit: "mm", symbol: "in", factor: 25.4, words: ["in", "inch", "inches", '"', "zoll"] },
  { unit: "mm", symbol: "ft", factor: 304.8, words: ["ft", "feet", "foot"] },
  { unit: "mm²", symbol: "mm²", words: ["mm²", "mm2", "mm^2", "sqmm", "sq mm", "sq.mm", "qmm"] },
  { unit: "min", symbol: "min", words: ["min", "mins", "minute", "minutes", "minuten", "minutos"] },
  { unit: "min", symbol: "h", factor: 60, words: ["h", "hour", "hours", "stunde", "stunden", "hora", "horas"] },
];

/** Upper and lower case tell prefixes apart; K for kilo is a habit that no other prefix stands against. */
const PREFIX_SIGNS: ReadonlyMap<string, number> = new Map(
  Object.entries({
    ...{ p: -12, n: -9, u: -6, "\u03bc": -6, m: -3, k: 3, K: 3, M: 6, G: 9 },
    ...{ мк: -6, м: -3, к: 3, К: 3, М: 6 },
  }),
);
const PREFIX_WORDS: ReadonlyMap<string, number> = new Map(
  Object.entries({
    ...{ nano: -9, micro: -6, mikro: -6, milli: -3, mili: -3, kilo: 3, kil: 3, кило: 3 },
    ...{ meg: 6, mega: 6, giga: 9 },
  }),
);
const PREFIXES = ["p", "n", "µ", "m", "", "k", "M", "G"];
const PREFIX_OF_POWER: ReadonlyMap<number, string> = new Map(PREFIXES.map((prefix, at) => [3 * at - 12, prefix]));
const MEGA = 6;

/** The power of ten of a prefix, as a sign or a word; undefined if it is none. */
function prefixPower(text: string): number | undefined {
  return PREFIX_SIGNS.get(text) ?? PREFIX_WORDS.get(text.toLowerCase());
}

/** A unit with the prefix of a power of ten: `symbolOf("V", -3)` is `mV`. */
export function symbolOf(unit: QuantityUnit | undefined, power: number): string {
  return `${PREFIX_OF_POWER.get(power) ?? ""}${unit ?? ""}`;
}

/**
 * The unit that a text names, with its prefix.
 *
 * @param text such as `mV`, `kilo ohm`, `Volt`, `mm²`; signs as `plainSigns` writes them
 * @param wanted the units that are looked for; all where absent
 * @returns the unit; undefined if the text names none of them
 */
export function readUnit(text: string, wanted?: readonly QuantityUnit[]): WrittenUnit | undefined {
  const written = text.trim().replace(/\.$/u, "");
  const lower = written.toLowerCase();
  const rows = UNITS.filter(({ unit }) => wanted === undefined || wanted.includes(unit));
  const whole = rows.find(({ words }) => words.includes(lower));
  if (whole) return made(whole, 0, false);
  for (const row of rows.filter(({ takesPrefix }) => takesPrefix)) {
    for (const word of row.words.filter((each) => lower.endsWith(each))) {
      const power = prefixPower(written.slice(0, -word.length).trim());
      if (power === undefined) continue;
      const isMegaSign = power === MEGA && /^[MМ]/u.test(written) && !/^meg/iu.test(written);
      const isAllCapitals = word.length > 1 && written === written.toUpperCase();
      return made(row, power, isMegaSign && (row.unit === "V" || row.unit === "A" || isAllCapitals));
    }
  }
  const power = rows.some(({ takesPrefix }) => takesPrefix) ? prefixPower(written) : undefined;
  if (power === undefined) return undefined;
  const isDoubtful = written === "M" && rows.every(({ unit }) => unit !== "Ω");
  return { power, factor: 1, symbol: symbolOf(undefined, power), isCaseDoubtful: isDoubtful };
}

function made({ unit, symbol, factor = 1 }: UnitRow, power: number, isCaseDoubtful: boolean): WrittenUnit {
  return { unit, power, factor, symbol: (PREFIX_OF_POWER.get(power) ?? "") + symbol, isCaseDoubtful };
}

/** What has to be known to take a text apart. */
interface ScanQuestion {
  readonly units: readonly QuantityUnit[];
  readonly ownUnit?: string;
  readonly assume?: string;
  readonly decimal?: DecimalSign;
}

/** A text taken apart: every number its digits can be, and one unit. */
export interface ScannedQuantity {
  readonly kind: "quantity";
  /** Numbers as they stand before the unit, each as `12.4e0`. */
  readonly numbers: readonly string[];
  readonly unit: WrittenUnit;
  readonly isUnitWritten: boolean;
}

/** Where and why a text is no quantity. */
export interface ScanFault {
  readonly kind: "fault";
  readonly why: string;
  readonly at: number;
}

/** Number without unit and prefix. */
const NO_UNIT: WrittenUnit = { power: 0, factor: 1, symbol: "", isCaseDoubtful: false };
/** The letters of IEC 60062 in place of the decimal sign, V, A and Ω as circuit diagrams use them (3V3); with the unit they name. */
const CODE_UNITS: ReadonlyMap<string, QuantityUnit> = new Map(
  Object.entries({ R: "Ω", L: "Ω", Ω: "Ω", V: "V", A: "A" } as const),
);
const MILLI = -3;

/**
 * Takes a quantity apart: sign, number, unit.
 *
 *     quantity = [sign] (code | number [exponent]) [unit]
 *     code     = [digits] letter digits
 *     number   = digits with points, commas, apostrophes, spaces
 *     exponent = ("e" | "E") [sign] digits
 *
 * @param text signs as `plainSigns` writes them
 * @param question what fits here
 * @returns the parts; or the first place that does not fit, with the reason
 */
export function scanQuantity(text: string, question: ScanQuestion): ScannedQuantity | ScanFault {
  const [lead = "", sign = ""] = match(/ *([+-]?) */y, text, 0);
  const at = lead.length;
  const code = question.units.some((unit) => CODE_UNITS_OF.has(unit)) ? scanCode(text, at) : undefined;
  if (code) return finishCode(text, question, sign, code);
  const [body = ""] = match(/[.,]?\d(?:[\d.,']| (?=\d))*/y, text, at);
  if (body === "") return noNumber(text, at);
  const ways = numberWays(body, question.decimal);
  if (ways.length === 0) return { kind: "fault", why: whyNoWay(question), at: at + firstMisfit(body, question) };
  const end = at + body.length;
  const [exponent = ""] = match(/e[+-]?\d+/iy, text, end);
  const unit = scanUnit(text, end + exponent.length, question);
  if ("kind" in unit) return unit;
  const power = exponent === "" ? "e0" : exponent;
  return { kind: "quantity", numbers: ways.map(({ digits }) => sign + digits + power), ...unit };
}

const CODE_UNITS_OF: ReadonlySet<QuantityUnit> = new Set(CODE_UNITS.values());

interface Code {
  readonly number: string;
  readonly letter: string;
  readonly letterAt: number;
  readonly end: number;
}

function scanCode(text: string, at: number): Code | undefined {
  const [whole, before = "", letter = "", after = ""] = match(/(\d*)([RLkKMGmu\u03bcnpVAΩ])(\d+)/y, text, at);
  if (whole === undefined || (before === "" && /[VAΩ]/u.test(letter))) return undefined;
  return { number: `${before || "0"}.${after}`, letter, letterAt: at + before.length, end: at + whole.length };
}

function finishCode(text: string, question: ScanQuestion, sign: string, code: Code): ScannedQuantity | ScanFault {
  const { letter, letterAt, end, number } = code;
  const implied = CODE_UNITS.get(letter);
  const [first] = question.units;
  const fault = (why: string, at: number): ScanFault => ({ kind: "fault", why, at });
  if (implied && !question.units.includes(implied))
    return fault(`"${letter}" stands for ${implied}; this is read in ${unitNames(question)}`, letterAt);
  const written = scanUnit(text, end, { ...question, assume: implied ?? first ?? "" });
  if ("kind" in written) return written;
  if (written.unit.power !== 0 || written.unit.unit === undefined)
    return fault(`"${letter}" in the number and a prefix after it do not go together`, end);
  if (implied && implied !== written.unit.unit)
    return fault(`"${letter}" stands for ${implied}, and another unit follows`, end);
  const power = letter === "L" ? MILLI : implied ? 0 : (prefixPower(letter) ?? 0);
  const unit: WrittenUnit = {
    ...{ unit: written.unit.unit, power, factor: 1, symbol: symbolOf(written.unit.unit, power) },
    isCaseDoubtful: power === MEGA && written.unit.unit !== "Ω",
  };
  return { kind: "quantity", numbers: [`${sign}${number}e0`], unit, isUnitWritten: true };
}

type ScannedUnit = Pick<ScannedQuantity, "unit" | "isUnitWritten">;

function scanUnit(text: string, from: number, question: ScanQuestion): ScannedUnit | ScanFault {
  const { units, ownUnit, assume } = question;
  const rest = text.slice(from).trim();
  const at = from + text.slice(from).search(/\S|$/u);
  // Direct current is what is read here, so saying it changes nothing.
  const named = units.some((unit) => unit === "V" || unit === "A")
    ? rest.replace(/\s*(?:d\.?\s?c\.?|[=⎓])$/iu, "").replace(/^d\.?c\.?\s*/iu, "")
    : rest;
  if (named === "") {
    const assumed = readUnit(assume ?? units[0] ?? "", units) ?? NO_UNIT;
    return { unit: assumed, isUnitWritten: false };
  }
  if (ownUnit !== undefined && named.toLowerCase() === ownUnit.trim().toLowerCase())
    return { unit: { ...NO_UNIT, symbol: ownUnit }, isUnitWritten: true };
  const unit = readUnit(named, units);
  if (!unit) return { kind: "fault", why: whyNoUnit(named, question), at };
  if (unit.unit !== undefined) return { unit, isUnitWritten: true };
  const [first] = units;
  return { unit: { ...unit, ...(first && { unit: first }), symbol: symbolOf(first, unit.power) }, isUnitWritten: true };
}

function whyNoUnit(named: string, question: ScanQuestion): string {
  const wanted = unitNames(question);
  const alternating = /^(.*?)\s*(?:a\.?\s?c\.?|[~∼])$/iu.exec(named)?.[1];
  if (alternating !== undefined && readUnit(alternating, question.units) !== undefined)
    return "this is alternating current (AC); direct current (DC) is measured here";
  if (/^(?:[-\u2013\u2014/…]|to\b|bis\b|\.\.)/iu.test(named)) return "enter one number, not two";
  const other = readUnit(named);
  if (wanted === "") return `"${named}" does not belong to a plain number`;
  return other?.unit !== undefined
    ? `this is read in ${wanted}, not in ${other.symbol}`
    : `"${named}" is no unit known here; this is read in ${wanted}`;
}

function unitNames({ units, ownUnit }: ScanQuestion): string {
  return [...units, ...(ownUnit === undefined ? [] : [ownUnit])].join(" or ");
}

function noNumber(text: string, at: number): ScanFault {
  const found = text.charAt(at);
  if (/[<>≤≥]/u.test(found)) return { kind: "fault", why: `"${found}" is a limit, not a value`, at };
  if (/[~≈±∼]/u.test(found)) return { kind: "fault", why: `"${found}" stands before the number`, at };
  return { kind: "fault", why: "there is no number here", at };
}

function whyNoWay({ decimal }: ScanQuestion): string {
  const known = decimal === undefined ? "" : `, with ${decimal === "comma" ? "a comma" : "a point"} before decimals`;
  return `points, commas and spaces stand where no number has them${known}`;
}

/** Place in the digits up to which they could be the beginning of a number. */
function firstMisfit(body: string, { decimal }: ScanQuestion): number {
  for (let end = body.length - 1; end > 0; end -= 1) if (numberWays(body.slice(0, end), decimal).length > 0) return end;
  return 0;
}

function match(pattern: RegExp, text: string, at: number): readonly (string | undefined)[] {
  const sticky = new RegExp(pattern.source, `${pattern.flags.replace("u", "")}u`);
  sticky.lastIndex = at;
  return sticky.exec(text) ?? [];
}
