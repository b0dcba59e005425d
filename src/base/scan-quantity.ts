import { numberWays, type DecimalSign } from "./number-ways.ts";
import { prefixPower, readUnit, symbolOf, type QuantityUnit, type WrittenUnit } from "./quantity-units.ts";

/** What has to be known to take a text apart. */
export interface ScanQuestion {
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
const CODE_UNITS: ReadonlyMap<string, QuantityUnit> = new Map([
  ["R", "Ω"],
  ["L", "Ω"],
  ["Ω", "Ω"],
  ["V", "V"],
  ["A", "A"],
]);
const MILLI = -3;
const MEGA = 6;

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
  if (code) return finishCode(text, { question, sign, code });
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

interface CodeAt {
  readonly question: ScanQuestion;
  readonly sign: string;
  readonly code: Code;
}

function finishCode(text: string, { question, sign, code }: CodeAt): ScannedQuantity | ScanFault {
  const { letter, letterAt, end, number } = code;
  const implied = CODE_UNITS.get(letter);
  const [first] = question.units;
  if (implied && !question.units.includes(implied))
    return {
      kind: "fault",
      why: `"${letter}" stands for ${implied}; this is read in ${unitNames(question)}`,
      at: letterAt,
    };
  const written = scanUnit(text, end, { ...question, assume: implied ?? first ?? "" });
  if ("kind" in written) return written;
  if (written.unit.power !== 0 || written.unit.unit === undefined)
    return { kind: "fault", why: `"${letter}" in the number and a prefix after it do not go together`, at: end };
  if (implied && implied !== written.unit.unit)
    return { kind: "fault", why: `"${letter}" stands for ${implied}, and another unit follows`, at: end };
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
    return "this is alternating current (AC), and direct current is read here";
  if (/^(?:[-\u2013\u2014/…]|to\b|bis\b|\.\.)/iu.test(named)) return "one number is wanted, not two";
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
  if (/[<>≤≥]/u.test(found)) return { kind: "fault", why: `"${found}" tells a limit, not a value`, at };
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
