import { err, ok, unreachable, type Result } from "../../base/index.ts";
import { BOUNDS, boundsText, isWithin } from "../../model/index.ts";
import { FAULT_KINDS, type Fault } from "./fault.ts";

/** Ohm of a short or bridge that names none: a firm touch of metal. */
const FIRM_TOUCH_OHM = 0.05;

/**
 * Reads a fault from its text form, a syntax of this project's own: `kind:target`, `kind:target=value`, or
 * `kind:target=value,number...`.
 *
 * | Text | Meaning |
 * |---|---|
 * | `open:W78`, `open:XF1:1` | wire broken, terminal pushed out |
 * | `resistance:XE1:1=0.25` | 0.25 ohm more |
 * | `short:W74=GND-E1,0.5` | wire touches a point through 0.5 ohm; `,30%` after it says where on the wire |
 * | `bridge:XC1:4=XC1:5,0.7` | between two cavities |
 * | `blown:FB1.FL2` | fuse |
 * | `stuck-open:S4.contact` | also `stuck-closed`, `stuck-on`, `stuck-off` |
 * | `drift:B5.ntc=1.2` | value times 1.2; `,0.5` after it is added |
 * | `unplugged:RT1.X` | connector or half |
 * | `loose:W06@GND-C1=0.4` | ring of one wire on its stud |
 * | `swapped:XF1p:3=XF1p:4` | two wires in each other's cavity |
 *
 * @param text The text.
 * @returns The fault, or a sentence that says what is wrong with the text. Whether the machine has the target is not looked at.
 * @example
 * ```ts
 * import { parseFault } from "ohmward/electrics";
 * const good = parseFault("resistance:XE1:1=0.25");
 * expect(good).toEqual({ ok: true, value: { kind: "resistance", of: "XE1:1", ohm: 0.25 } });
 * const bad = parseFault("resistance:XE1:1");
 * expect(bad.ok ? "" : bad.error).toContain("=");
 * ```
 */
export function parseFault(text: string): Result<Fault, string> {
  const [, word = "", rest = ""] = /^\s*([a-z-]+)\s*:\s*(.*?)\s*$/su.exec(text) ?? [];
  const kind = FAULT_KINDS.find((each) => each === word);
  if (!kind) return err(`"${text}" starts with no fault known here; the kinds are ${FAULT_KINDS.join(", ")}`);
  const equals = rest.indexOf("=");
  const target = (equals < 0 ? rest : rest.slice(0, equals)).trim();
  const values =
    equals < 0
      ? []
      : rest
          .slice(equals + 1)
          .split(",")
          .map((part) => part.trim());
  if (target === "") return err(`"${text}" names nothing after "${kind}:"`);
  const read = readParts(kind, target, values);
  return read.ok ? read : err(`"${text}": ${read.error}`);
}

function readParts(kind: Fault["kind"], of: string, values: readonly string[]): Result<Fault, string> {
  switch (kind) {
    case "open":
    case "blown":
    case "unplugged":
    case "stuck-open":
    case "stuck-closed":
    case "stuck-on":
    case "stuck-off":
      return values.length === 0 ? ok({ kind, of }) : err(`${kind} takes no value after "="`);
    case "resistance": {
      const ohm = readOhm(values[0]);
      if (values.length !== 1) return err(`write the added ohm after "=", as in resistance:${of}=0.25`);
      return ohm === undefined ? err(noOhm(values[0])) : ok({ kind, of, ohm });
    }
    case "loose":
      return readLoose(of, values);
    case "drift":
      return readDrift(of, values);
    case "swapped": {
      const [other] = values;
      if (other === undefined || other === "" || values.length > 1)
        return err(`name the second cavity after "=", as in swapped:XF1p:3=XF1p:4`);
      return ok({ kind, cavities: [of, other] });
    }
    case "short":
    case "bridge":
      return readTouch(kind, of, values);
    default:
      return unreachable(kind);
  }
}

function readLoose(of: string, values: readonly string[]): Result<Fault, string> {
  if (!of.includes("@")) return err(`name the wire and its stud, as in loose:W06@GND-C1`);
  if (values.length === 0) return ok({ kind: "loose", of });
  const ohm = readOhm(values[0]);
  if (ohm === undefined || values.length > 1) return err(noOhm(values.join(",")));
  return ok({ kind: "loose", of, ohm });
}

function readDrift(of: string, values: readonly string[]): Result<Fault, string> {
  const factor = readNumber(values[0]);
  const offset = values.length > 1 ? readNumber(values[1]) : 0;
  const wanted = `write a factor, and if need be what is added, as in drift:${of}=1.2,0`;
  if (factor === undefined || offset === undefined || values.length > 2) return err(wanted);
  if (!isWithin(BOUNDS.driftFactor, factor)) return err(`${wanted}. ${boundsText(BOUNDS.driftFactor)}`);
  if (!isWithin(BOUNDS.driftOffset, offset)) return err(`${wanted}. ${boundsText(BOUNDS.driftOffset)}`);
  return ok({ kind: "drift", of, factor, offset });
}

function readTouch(kind: "short" | "bridge", of: string, values: readonly string[]): Result<Fault, string> {
  const [other, ohmText, place] = values;
  if (other === undefined || other === "" || values.length > 3)
    return err(`name what it touches after "=", as in ${kind}:${of}=GND-E1,0.5`);
  const ohm = ohmText === undefined ? FIRM_TOUCH_OHM : readOhm(ohmText);
  if (ohm === undefined) return err(noOhm(ohmText));
  if (place === undefined)
    return ok(kind === "bridge" ? { kind, between: [of, other], ohm } : { kind, of, to: other, ohm });
  const atPercent = place.endsWith("%") ? readNumber(place.slice(0, -1)) : undefined;
  if (kind === "bridge" || atPercent === undefined || atPercent < 0 || atPercent > 100)
    return err(`"${place}" is no place on a wire; write 0% to 100% from its first end`);
  return ok({ kind, of, to: other, ohm, atPercent });
}

function readOhm(text: string | undefined): number | undefined {
  const value = readNumber(text);
  return value !== undefined && isWithin(BOUNDS.ohm, value) ? value : undefined;
}

function noOhm(text = ""): string {
  return `"${text}" is no number of ohm: ${boundsText(BOUNDS.ohm)}`;
}

function readNumber(text: string | undefined): number | undefined {
  if (text === undefined || !/^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?$/iu.test(text)) return undefined;
  const value = Number(text);
  return Number.isFinite(value) ? value : undefined;
}
