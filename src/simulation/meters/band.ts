import { formatQuantity, keptFor, naturalOrder } from "../../base/index.ts";
import { drivenAmpere } from "../network/node-volts.ts";
import type { Part } from "../network/part.ts";
import type { OperatingPoint } from "../network/settle.ts";
import { voltsOfUnitCurrent } from "../solver/solve-network.ts";
import { COPPER_PER_KELVIN } from "../tables/wire-resistance.ts";
import type { Because, ReadingUnit } from "./reading.ts";

/** What a band is made of. */
interface BandInput {
  readonly operatingPoint: OperatingPoint;
  readonly unit: ReadingUnit;
  readonly value: number;
  readonly spread: ToleranceRange;
  readonly meter: { readonly name: string; readonly limit: number; readonly count: number };
  /** What a reading at the tips is multiplied with to get the reading: 1 where the meter draws next to nothing. */
  readonly scale: number;
}

/** A band with its reasons. */
interface Band {
  readonly low: number;
  readonly high: number;
  readonly because: readonly Because[];
}

/** Causes that make up less than this share of the square of the half width are not listed. */
const LISTED_SHARE = 0.04;
const MOST_PARTS = 4;

/**
 * The band of a reading: supply, temperature, parts and meter, each at its limit, added as squares, since they have nothing to do with
 * each other. Limits count as two standard deviations, so the band does as well.
 */
export function makeBand(input: BandInput): Band {
  const { operatingPoint, value, spread, meter, scale, unit } = input;
  const sizes = spread.parts.map((part) => scale * Math.hypot(part.byOhm, part.byVolt));
  const supply = Math.abs(scale * spread.supply);
  const temperature = Math.abs(scale * spread.temperature);
  const rest = scale * scale * spread.restSquares;
  const side = Math.sqrt([...sizes, supply, temperature, meter.limit].reduce((sum, size) => sum + size * size, rest));
  const isListed = (size: number): boolean => size * size >= LISTED_SHARE * side * side;
  const say = (size: number): string => `±${formatQuantity(size, unit, 2)}`;
  const because: Because[] = [];
  if (isListed(supply)) because.push({ code: "supply", text: `Battery and charging state: ${say(supply)}` });
  const parts = spread.parts
    .map((part, at) => ({ part, size: sizes[at] ?? 0 }))
    .filter(({ size }) => isListed(size))
    .toSorted((a, b) => b.size - a.size || naturalOrder(nameOf(operatingPoint, a.part), nameOf(operatingPoint, b.part)))
    .slice(0, MOST_PARTS);
  for (const { part, size } of parts)
    because.push({ code: "part", text: `${nameOf(operatingPoint, part)}${offOf(operatingPoint, part)}: ${say(size)}` });
  if (isListed(temperature))
    because.push({
      code: "temperature",
      text: `Copper ${TEMPERATURE_SPREAD_K} K warmer or colder: ${say(temperature)}`,
    });
  because.push({ code: "meter", text: `Meter (${meter.name}): ${say(meter.limit)}` });
  return { low: value - side, high: value + side, because: [...because, ...assumptionsOf(input)] };
}

function nameOf({ list }: OperatingPoint, part: PartTolerance): string {
  return list.parts[part.at]?.owner ?? "";
}

function offOf({ list }: OperatingPoint, { at, byOhm, byVolt, tolerance }: PartTolerance): string {
  const part = list.parts[at];
  if (!part) return "";
  if (Math.abs(byVolt) > Math.abs(byOhm)) return ` ±${formatQuantity(part.voltTolerance, "V", 2)}`;
  return ` ±${Math.round(tolerance * 100)} %`;
}

/** Assumptions about parts that, half as large again, would change the reading by a count. */
function assumptionsOf({ operatingPoint, spread, meter, scale }: BandInput): Because[] {
  const { list } = operatingPoint;
  const matter = spread.parts.filter((part) => Math.abs(scale * part.perWhole) / 2 >= meter.count);
  const owners = new Set(matter.map((part) => nameOf(operatingPoint, part)));
  const hasJoint = matter.some(({ at }) => list.parts[at]?.group === "joint");
  const taken = list.assumptions
    .filter(({ of }) => (of === "" ? hasJoint : owners.has(of)))
    .map(({ text }): Because => ({ code: "assumption", text }));
  const pulsed = matter.flatMap(({ at }): Because[] => {
    const part = list.parts[at];
    if (part?.control?.kind !== "duty") return [];
    const share = Math.round(part.control.share * 100);
    return [
      {
        code: "average",
        text: `${part.owner} has a duty cycle of ${share} %. The value is the average. An oscilloscope shows the pulses`,
      },
    ];
  });
  return [...taken, ...pulsed];
}

/** How much one part can move a reading, in the unit of the reading. */
interface PartTolerance {
  readonly at: number;
  /** Change of the reading if the resistance were 100 % more, to first order. */
  readonly perWhole: number;
  /** Limit of its resistance, as a share. */
  readonly tolerance: number;
  /** Change of the reading with the part at the limit of its resistance. */
  readonly byOhm: number;
  /** Change of the reading with the part at the limit of its voltage. */
  readonly byVolt: number;
}

/** How much everything together can move a reading. */
export interface ToleranceRange {
  /** The parts that make a difference. */
  readonly parts: readonly PartTolerance[];
  /** Sum of the squares of what all other parts do at their limits: there are many in a large machine, each next to nothing. */
  readonly restSquares: number;
  /** All batteries and alternators at their limit at once. */
  readonly supply: number;
  /** Copper 20 K warmer. */
  readonly temperature: number;
  /** Volts that 1 A from the red to the black point makes, by node: how every part is seen from the two points. */
  readonly unitVolts: Float64Array;
}

/** How much warmer or colder copper may be than is taken, in kelvin. Common practice, no source. */
const TEMPERATURE_SPREAD_K = 20;

const COPPER = new Set(["wire", "coil"]);

/**
 * How much each part moves the voltage between two points, to first order, from one more solution: by reciprocity the volts that 1 A
 * between the points makes at a part tell what the part does to the points.
 *
 * @param black Node at the black lead, in the same island.
 */
export function voltSpread(operatingPoint: OperatingPoint, red: number, black: number): ToleranceRange {
  return collect(operatingPoint, voltsOfUnitCurrent(operatingPoint.solved, red, black), "dc-voltage");
}

/**
 * How much each part moves the resistance between two points, to first order: by the square of its share of the current.
 *
 * @param black Node at the black lead, in the same island.
 */
export function ohmSpread(operatingPoint: OperatingPoint, red: number, black: number): ToleranceRange {
  return collect(operatingPoint, voltsOfUnitCurrent(operatingPoint.solved, red, black), "resistance");
}

/** A part that does less than this share of what the greatest does is not listed by itself. */
const LEAST_SHARE = 1e-6;

function collect(
  operatingPoint: OperatingPoint,
  unitVolts: Float64Array,
  what: "dc-voltage" | "resistance",
): ToleranceRange {
  const { list, values } = operatingPoint;
  const { perWhole, perVolt } = derive(operatingPoint, unitVolts, what);
  const limits = limitsOf(list.parts);
  let greatest = 0;
  for (let at = 0; at < perWhole.length; at++) {
    const byVolt = (perVolt[at] ?? 0) * (limits.volt[at] ?? 0);
    greatest = Math.max(greatest, Math.abs(perWhole[at] ?? 0), Math.abs(byVolt));
  }
  const parts: PartTolerance[] = [];
  let restSquares = 0;
  let supply = 0;
  let copper = 0;
  for (let at = 0; at < perWhole.length; at++) {
    const whole = perWhole[at] ?? 0;
    const byVolt = (perVolt[at] ?? 0) * (limits.volt[at] ?? 0);
    if (whole === 0 && byVolt === 0) continue;
    const isSupply = limits.kind[at] === SUPPLY;
    if (isSupply) supply += byVolt;
    if (limits.kind[at] === OF_COPPER) copper += whole;
    const tolerance =
      limits.kind[at] === PULSED ? pulsedTolerance(list.parts[at], values.ohm[at] ?? Infinity) : (limits.ohm[at] ?? 0);
    const byOhm = whole * tolerance;
    const own = isSupply ? 0 : byVolt;
    if (Math.max(Math.abs(whole), Math.abs(byVolt)) < LEAST_SHARE * greatest) restSquares += byOhm * byOhm + own * own;
    else parts.push({ at, perWhole: whole, tolerance, byOhm, byVolt: own });
  }
  return { parts, restSquares, supply, temperature: copper * COPPER_PER_KELVIN * TEMPERATURE_SPREAD_K, unitVolts };
}

const SUPPLY = 1;
const OF_COPPER = 2;
const PULSED = 3;

/** Limits of all parts as plain numbers, which are gone through quicker than the parts. */
interface Limits {
  readonly ohm: Float64Array;
  readonly volt: Float64Array;
  /** `SUPPLY`, `OF_COPPER`, `PULSED` or 0. */
  readonly kind: Uint8Array;
}

const limitsOf = keptFor((parts: readonly Part[]): Limits => {
  const limits = {
    ohm: new Float64Array(parts.length),
    volt: new Float64Array(parts.length),
    kind: new Uint8Array(parts.length),
  };
  for (let at = 0; at < parts.length; at++) {
    const part = parts[at];
    if (!part) continue;
    limits.ohm[at] = part.tolerance;
    limits.volt[at] = part.voltTolerance;
    if (part.control?.kind === "duty") limits.kind[at] = PULSED;
    else if (part.group === "supply") limits.kind[at] = SUPPLY;
    else if (COPPER.has(part.group)) limits.kind[at] = OF_COPPER;
  }
  return limits;
});

/** Per part: how the reading changes with the whole of its resistance, and with each volt of its source. */
function derive(
  operatingPoint: OperatingPoint,
  unitVolts: Float64Array,
  what: "dc-voltage" | "resistance",
): { readonly perWhole: Float64Array; readonly perVolt: Float64Array } {
  const { list, values } = operatingPoint;
  const { from, to } = list.shape;
  const perWhole = new Float64Array(list.parts.length);
  const perVolt = new Float64Array(list.parts.length);
  for (let at = 0; at < perWhole.length; at++) {
    const ohm = values.ohm[at] ?? Infinity;
    // What an ideal part does to a reading cannot be told from its own voltage; it has no resistance that could be off.
    if (ohm === Infinity || ohm === 0) continue;
    const [first, second] = [from[at] ?? 0, to[at] ?? 0];
    const seen = (unitVolts[first] ?? 0) - (unitVolts[second] ?? 0);
    if (what === "resistance") perWhole[at] = (seen * seen) / ohm;
    else {
      perWhole[at] = drivenAmpere(operatingPoint, at) * seen;
      perVolt[at] = -seen / ohm;
    }
  }
  return { perWhole, perVolt };
}

/** How far the share of the time a driver is on may be off, as a share of it. Common practice, no source. */
const DUTY_SHARE = 0.05;

/** Only a small part of what stands for a pulsed driver is its own resistance; the rest hangs on the pulses. */
function pulsedTolerance(part: Part | undefined, ohm: number): number {
  if (part?.control?.kind !== "duty") return 0;
  return Math.hypot((part.tolerance * part.ohm) / part.control.share / ohm, DUTY_SHARE);
}
