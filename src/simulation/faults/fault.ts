import {
  err,
  ok,
  plainNumber,
  quantityProblem,
  readQuantity,
  unreachable,
  wordsOf,
  type QuantityUnit,
  type Result,
} from "../../base/index.ts";
import { BOUNDS, boundsText, isWithin, type Bounds } from "../../harness-model/index.ts";

/**
 * What is wrong with the machine, as data. Targets are named as everywhere: a wire `W78`, a mated contact `XE1:1` (or either half of it),
 * an element `S4.contact`, a wire's end at a splice or stud `W78@SP13`.
 */
export type Fault =
  /** No current passes. */
  | { readonly kind: "open"; readonly of: string }
  /** So many ohms more in the way. */
  | { readonly kind: "high-resistance"; readonly of: string; readonly ohm: number }
  /** A wire or point touches another point, wire or net; `atPercent` is where on the wire, from its first end, 50 when left out. */
  | {
      readonly kind: "short";
      readonly of: string;
      readonly to: string;
      readonly ohm: number;
      readonly atPercent?: number;
    }
  /** Water or metal between two cavities. */
  | { readonly kind: "bridge"; readonly between: readonly [string, string]; readonly ohm: number }
  /** A fuse or lamp. */
  | { readonly kind: "blown"; readonly of: string }
  /** A switch or relay contact that does not move, a driver or source that does not follow. */
  | { readonly kind: "stuck-open" | "stuck-closed" | "stuck-on" | "stuck-off"; readonly of: string }
  /** A sensor, resistance or regulator whose value is `factor` times what it should be, plus `offset` (ohm, volt, or ratio of the supply). */
  | { readonly kind: "drift"; readonly of: string; readonly factor: number; readonly offset: number }
  /** A connector, or the half that is left off. */
  | { readonly kind: "unplugged"; readonly of: string }
  /** The ring of one wire on its stud, `W06@GND-C1`; without ohm it makes no contact at all. */
  | { readonly kind: "loose-terminal"; readonly of: string; readonly ohm?: number }
  /** The wires of two cavities of one half stand in each other's place. */
  | { readonly kind: "cross-wired"; readonly cavities: readonly [string, string] };

/** Every kind of fault. */
export const FAULT_KINDS = [
  "open",
  "high-resistance",
  "short",
  "bridge",
  "blown",
  "stuck-open",
  "stuck-closed",
  "stuck-on",
  "stuck-off",
  "drift",
  "unplugged",
  "loose-terminal",
  "cross-wired",
] as const satisfies readonly Fault["kind"][];

/** Ohm of a short or bridge that names none: a firm touch of metal. */
const FIRM_TOUCH_OHM = 0.05;

/**
 * Reads a fault from its text form, a syntax of this project's own: `kind:target`, `kind:target=value`, or
 * `kind:target=value,number...`.
 *
 * | Text | Meaning |
 * |---|---|
 * | `open:W78`, `open:XF1:1` | wire broken, terminal pushed out |
 * | `high-resistance:XE1:1=0.25` | 0.25 ohm more; also `250 mohm`, `4k7`, `0,25` |
 * | `short:W74=GND-E1,0.5` | wire touches a point through 0.5 ohm; `,30%` after it says where on the wire |
 * | `bridge:XC1:4=XC1:5,0.7` | between two cavities |
 * | `blown:FB1.FL2` | fuse |
 * | `stuck-open:S4.contact` | also `stuck-closed`, `stuck-on`, `stuck-off` |
 * | `drift:B5.ntc=1.2` | value times 1.2; `,+0.5` after it is added |
 * | `unplugged:RT1.X` | connector or half |
 * | `loose-terminal:W06@GND-C1=0.4` | ring of one wire on its stud |
 * | `cross-wired:XF1p:3=XF1p:4` | two wires in each other's cavity |
 *
 * @param text The text.
 * @returns The fault; or what is wrong with the text, with the ways to write it where it can be taken in several. Whether the machine has
 *   the target is not looked at.
 * @example
 * ```ts
 * import { parseFault } from "ohmward/simulation";
 * const good = parseFault("high-resistance:XE1:1=0.25");
 * expect(good).toEqual({ ok: true, value: { kind: "high-resistance", of: "XE1:1", ohm: 0.25 } });
 * const bad = parseFault("high-resistance:XE1:1");
 * expect(bad.ok ? "" : bad.error.text).toContain("=");
 * ```
 */
export function parseFault(text: string): Result<Fault, FaultProblem> {
  const problem = (why: string): Result<Fault, FaultProblem> => err({ text: why, ways: [] });
  const [, word = "", rest = ""] = /^\s*([a-z-]+)\s*:\s*(.*?)\s*$/su.exec(text) ?? [];
  const kind = FAULT_KINDS.find((each) => each === todaysKind(word));
  if (!kind) return problem(`"${text}" does not start with a known fault. The kinds are ${FAULT_KINDS.join(", ")}`);
  const equals = rest.indexOf("=");
  const target = (equals < 0 ? rest : rest.slice(0, equals)).trim();
  const values = equals < 0 ? [] : rest.slice(equals + 1).split(",");
  if (target === "") return problem(`"${text}" names nothing after "${kind}:"`);
  if (values.length > MOST_PARTS) return problem(`"${text}": there are too many commas after "="`);
  // A name before the values keeps its commas to itself.
  const names = kind === "short" || kind === "bridge" ? values.slice(0, 1).map((name) => name.trim()) : [];
  const ways = commaWays(values.slice(names.length)).map((parts) => [...names, ...parts]);
  const readings = ways.map((parts) => readParts(kind, target, parts));
  const asked = readings.filter((each) => each.kind === "asked").flatMap(({ ways }) => ways);
  const read = readings.flatMap((each) => (each.kind === "fault" ? [each.fault] : []));
  const texts = [...new Set([...read.map(formatFault), ...asked])];
  const [only] = read;
  if (only && texts.length === 1) return ok(only);
  if (texts.length > 0)
    return err({ text: `"${text}" has more than one meaning. Write ${texts.join(" or ")}`, ways: texts });
  // What is said of the text with every comma as a separator; else of the first one that got as far as a number.
  const refused = readings.flatMap((each) => (each.kind === "refused" ? [each] : []));
  const told = refused.find(({ isNumber }) => isNumber) ?? refused.at(-1);
  return problem(`"${text}": ${told?.why ?? "it cannot be read"}`);
}

/** What version 0.1 called some kinds of faults. */
const todaysKind = wordsOf({ resistance: "high-resistance", swapped: "cross-wired", loose: "loose-terminal" });

/** Why a fault was not read. */
interface FaultProblem {
  readonly text: string;
  /** Texts that are read in one way, to choose from. */
  readonly ways: readonly string[];
}

/** More commas than any fault has, each with a decimal comma. */
const MOST_PARTS = 6;

/** Every way to take the commas: as what parts the values, or as the decimal sign or a sign between thousands within one. */
function commaWays(values: readonly string[]): readonly (readonly string[])[] {
  const [first, ...rest] = values;
  if (first === undefined) return [[]];
  if (rest.length === 0) return [[first.trim()]];
  return commaWays(rest).flatMap((ways): string[][] => {
    const [next = "", ...others] = ways;
    const apart = [first.trim(), ...ways];
    return /\d$/u.test(first) && /^\d/u.test(next) ? [[`${first.trim()},${next}`, ...others], apart] : [apart];
  });
}

type Parts =
  | { readonly kind: "fault"; readonly fault: Fault }
  | { readonly kind: "asked"; readonly ways: readonly string[] }
  /** `isNumber`, whether it was a number that could not be read. */
  | { readonly kind: "refused"; readonly why: string; readonly isNumber: boolean };

const fault = (found: Fault): Parts => ({ kind: "fault", fault: found });
const refused = (why: string, isNumber = false): Parts => ({ kind: "refused", why, isNumber });

function readParts(kind: Fault["kind"], of: string, values: readonly string[]): Parts {
  const [value, ...more] = values;
  switch (kind) {
    case "open":
    case "blown":
    case "unplugged":
    case "stuck-open":
    case "stuck-closed":
    case "stuck-on":
    case "stuck-off":
      return value === undefined ? fault({ kind, of }) : refused(`${kind} takes no value after "="`);
    case "high-resistance":
      if (value === undefined || more.length > 0)
        return refused(`write the added resistance in Ω after "=", as in high-resistance:${of}=0.25`);
      return readOhm(value, (ohm) => ({ kind, of, ohm }));
    case "loose-terminal":
      if (!of.includes("@")) return refused(`name the wire and its stud, as in loose-terminal:W06@GND-C1`);
      if (value === undefined) return fault({ kind, of });
      if (more.length > 0) return refused(`write one resistance in Ω after "=", as in loose-terminal:${of}=0.4`);
      return readOhm(value, (ohm) => ({ kind, of, ohm }));
    case "drift":
      return readDrift(of, values);
    case "cross-wired":
      if (value === undefined || value === "" || more.length > 0)
        return refused(`name the second cavity after "=", as in cross-wired:XF1p:3=XF1p:4`);
      return fault({ kind, cavities: [of, value] });
    case "short":
    case "bridge":
      return readTouch(kind, of, values);
    default:
      return unreachable(kind);
  }
}

function readDrift(of: string, [times, added, ...more]: readonly string[]): Parts {
  const why = `write a factor and, if needed, an offset with its sign, as in drift:${of}=1.2,+0.5`;
  if (times === undefined || more.length > 0) return refused(why);
  const factors = readValues(times, []);
  const offsets = added === undefined ? [0] : readValues(added, []);
  if (!Array.isArray(factors) || !Array.isArray(offsets)) return refused(why);
  const outside = beyond(BOUNDS.driftFactor, factors) ?? beyond(BOUNDS.driftOffset, offsets);
  if (outside !== undefined) return refused(`${why}. ${outside}`);
  return among(factors.flatMap((factor) => offsets.map((offset): Fault => ({ kind: "drift", of, factor, offset }))));
}

function readTouch(kind: "short" | "bridge", of: string, [other, ohmText, place, ...more]: readonly string[]): Parts {
  if (other === undefined || other === "" || more.length > 0)
    return refused(`name the point it is shorted to after "=", as in ${kind}:${of}=GND-E1,0.5`);
  const made = (ohm: number): Fault =>
    kind === "bridge" ? { kind, between: [of, other], ohm } : { kind, of, to: other, ohm };
  if (place === undefined) return ohmText === undefined ? fault(made(FIRM_TOUCH_OHM)) : readOhm(ohmText, made);
  const shares = /%$/u.test(place) ? readValues(place, ["%"]) : undefined;
  if (kind === "bridge" || !Array.isArray(shares) || shares.some((share) => share < 0 || share > 100))
    return refused(`"${place}" is no position on a wire. Write 0% to 100% from its first end`);
  const ohms = readValues(ohmText ?? "", ["Ω"]);
  if (!Array.isArray(ohms) || beyond(BOUNDS.ohm, ohms) !== undefined) return readOhm(ohmText ?? "", made);
  return among(
    ohms.flatMap((ohm) => shares.map((atPercent): Fault => ({ kind: "short", of, to: other, ohm, atPercent }))),
  );
}

function readOhm(text: string, made: (ohm: number) => Fault): Parts {
  const ohms = readValues(text, ["Ω"]);
  if (!Array.isArray(ohms)) return refused(`"${text}" is no resistance in Ω: ${ohms}`, !text.endsWith("%"));
  const outside = beyond(BOUNDS.ohm, ohms);
  if (outside !== undefined) return refused(`"${text}" is no resistance in Ω: ${outside}`, true);
  return among(ohms.map(made));
}

/** What is wanted, where one of the numbers that a text can be read as is out of bounds. */
function beyond(bounds: Bounds, values: readonly number[]): string | undefined {
  return values.every((value) => isWithin(bounds, value)) ? undefined : boundsText(bounds);
}

function among(faults: readonly Fault[]): Parts {
  const [only, ...more] = faults;
  return only && more.length === 0 ? fault(only) : { kind: "asked", ways: faults.map(formatFault) };
}

/** Every value that a text can be; else why it is none. */
function readValues(text: string, units: readonly QuantityUnit[]): number[] | string {
  const read = readQuantity(text, { units });
  if (read.kind === "value") return [read.value];
  if (read.kind !== "question") return quantityProblem(text, read);
  return read.ways.flatMap(({ write }) => {
    const way = readQuantity(write, { units });
    return way.kind === "value" ? [way.value] : [];
  });
}

/** Writes a fault in the text form that is read back by `parseFault`. */
export function formatFault(fault: Fault): string {
  switch (fault.kind) {
    case "high-resistance":
      return `high-resistance:${fault.of}=${plainNumber(fault.ohm)}`;
    case "short": {
      const place = fault.atPercent === undefined ? "" : `,${plainNumber(fault.atPercent)}%`;
      return `short:${fault.of}=${fault.to},${plainNumber(fault.ohm)}${place}`;
    }
    case "bridge":
      return `bridge:${fault.between[0]}=${fault.between[1]},${plainNumber(fault.ohm)}`;
    case "drift":
      return `drift:${fault.of}=${plainNumber(fault.factor)}${addend(fault.offset)}`;
    case "loose-terminal":
      return `loose-terminal:${fault.of}${fault.ohm === undefined ? "" : `=${plainNumber(fault.ohm)}`}`;
    case "cross-wired":
      return `cross-wired:${fault.cavities[0]}=${fault.cavities[1]}`;
    case "open":
    case "blown":
    case "unplugged":
    case "stuck-open":
    case "stuck-closed":
    case "stuck-on":
    case "stuck-off":
      return `${fault.kind}:${fault.of}`;
  }
}

/** With its sign, as "1,2" could be one number and two. */
function addend(offset: number): string {
  if (offset === 0) return "";
  return offset < 0 ? `,${plainNumber(offset)}` : `,+${plainNumber(offset)}`;
}
