import { formatQuantity, naturalOrder } from "../../base/index.ts";
import type { Settled } from "../network/settle.ts";
import type { Because, ReadingUnit } from "./reading.ts";
import { TEMPERATURE_SPREAD_K, type PartSpread, type Spread } from "./spread.ts";

/** What a band is made of. */
export interface BandInput {
  readonly settled: Settled;
  readonly unit: ReadingUnit;
  readonly value: number;
  readonly spread: Spread;
  readonly meter: { readonly name: string; readonly limit: number; readonly count: number };
  /** What a reading at the tips is multiplied with to get the reading: 1 where the meter draws next to nothing. */
  readonly scale: number;
}

/** A band with its reasons. */
export interface Band {
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
  const { settled, value, spread, meter, scale, unit } = input;
  const sizes = spread.parts.map((part) => scale * Math.hypot(part.byOhm, part.byVolt));
  const supply = Math.abs(scale * spread.supply);
  const temperature = Math.abs(scale * spread.temperature);
  const rest = scale * scale * spread.restSquares;
  const half = Math.sqrt([...sizes, supply, temperature, meter.limit].reduce((sum, size) => sum + size * size, rest));
  const isListed = (size: number): boolean => size * size >= LISTED_SHARE * half * half;
  const say = (size: number): string => `±${formatQuantity(size, unit, 2)}`;
  const because: Because[] = [];
  if (isListed(supply)) because.push({ code: "supply", text: `State of battery and charging: ${say(supply)}` });
  const parts = spread.parts
    .map((part, at) => ({ part, size: sizes[at] ?? 0 }))
    .filter(({ size }) => isListed(size))
    .toSorted((a, b) => b.size - a.size || naturalOrder(nameOf(settled, a.part), nameOf(settled, b.part)))
    .slice(0, MOST_PARTS);
  for (const { part, size } of parts)
    because.push({ code: "part", text: `${nameOf(settled, part)}${offOf(settled, part)}: ${say(size)}` });
  if (isListed(temperature))
    because.push({
      code: "temperature",
      text: `Copper ${TEMPERATURE_SPREAD_K} K warmer or colder: ${say(temperature)}`,
    });
  because.push({ code: "meter", text: `Meter (${meter.name}): ${say(meter.limit)}` });
  return { low: value - half, high: value + half, because: [...because, ...assumptionsOf(input)] };
}

function nameOf({ list }: Settled, part: PartSpread): string {
  return list.parts[part.at]?.owner ?? "";
}

function offOf({ list }: Settled, { at, byOhm, byVolt, tolerance }: PartSpread): string {
  const part = list.parts[at];
  if (!part) return "";
  if (Math.abs(byVolt) > Math.abs(byOhm)) return ` off by ${formatQuantity(part.voltTolerance, "V", 2)}`;
  return ` off by ${Math.round(tolerance * 100)} %`;
}

/** Assumptions about parts that, half as large again, would change the reading by a count. */
function assumptionsOf({ settled, spread, meter, scale }: BandInput): Because[] {
  const { list } = settled;
  const matter = spread.parts.filter((part) => Math.abs(scale * part.perWhole) / 2 >= meter.count);
  const owners = new Set(matter.map((part) => nameOf(settled, part)));
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
        text: `${part.owner} is on ${share} % of the time: this is the average, a scope shows the pulses`,
      },
    ];
  });
  return [...taken, ...pulsed];
}
