import { voltsOfUnitCurrent } from "../solver/ask-solved.ts";
import type { Part } from "../network/part.ts";
import type { Settled } from "../network/settle.ts";
import { COPPER_PER_KELVIN } from "../tables/copper.ts";

/** How much one part can move a reading, in the unit of the reading. */
export interface PartSpread {
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
export interface Spread {
  readonly parts: readonly PartSpread[];
  /** All batteries and alternators at their limit at once. */
  readonly supply: number;
  /** Copper 20 K warmer. */
  readonly temperature: number;
  /** Volts that 1 A from the red to the black point makes, by node: how every part is seen from the two points. */
  readonly unitVolts: Float64Array;
}

/** How much warmer or colder copper may be than is taken, in kelvin. Common practice, no source. */
export const TEMPERATURE_SPREAD_K = 20;

const COPPER = new Set(["wire", "coil"]);

/**
 * How much each part moves the voltage between two points, to first order, from one more solution: by reciprocity the volts that 1 A
 * between the points makes at a part tell what the part does to the points.
 *
 * @param settled The settled circuit.
 * @param red Node at the red lead.
 * @param black Node at the black lead, in the same island.
 */
export function voltSpread(settled: Settled, red: number, black: number): Spread {
  const { list, values, solved } = settled;
  const unitVolts = voltsOfUnitCurrent(solved, red, black);
  return collect(settled, unitVolts, (at, ohm) => {
    const [from, to] = [list.shape.from[at] ?? 0, list.shape.to[at] ?? 0];
    const seen = (unitVolts[from] ?? 0) - (unitVolts[to] ?? 0);
    const driving = (solved.volts[from] ?? 0) - (solved.volts[to] ?? 0) + (values.volt[at] ?? 0);
    return { perWhole: (driving / ohm) * seen, perVolt: -seen / ohm };
  });
}

/**
 * How much each part moves the resistance between two points, to first order: by the square of its share of the current.
 *
 * @param settled The settled circuit.
 * @param red Node at the red lead.
 * @param black Node at the black lead, in the same island.
 */
export function ohmSpread(settled: Settled, red: number, black: number): Spread {
  const { shape } = settled.list;
  const unitVolts = voltsOfUnitCurrent(settled.solved, red, black);
  return collect(settled, unitVolts, (at, ohm) => {
    const seen = (unitVolts[shape.from[at] ?? 0] ?? 0) - (unitVolts[shape.to[at] ?? 0] ?? 0);
    return { perWhole: (seen * seen) / ohm, perVolt: 0 };
  });
}

function collect(
  { list, values }: Settled,
  unitVolts: Float64Array,
  derive: (at: number, ohm: number) => { readonly perWhole: number; readonly perVolt: number },
): Spread {
  const parts: PartSpread[] = [];
  let supply = 0;
  let temperature = 0;
  list.parts.forEach((part, at) => {
    const ohm = values.ohm[at] ?? Infinity;
    // What an ideal part does to a reading cannot be told from its own voltage; it has no resistance that could be off.
    if (ohm === Infinity || ohm === 0) return;
    const { perWhole, perVolt } = derive(at, ohm);
    if (perWhole === 0 && perVolt === 0) return;
    const byVolt = perVolt * part.voltTolerance;
    if (part.group === "supply") supply += byVolt;
    if (COPPER.has(part.group)) temperature += perWhole * COPPER_PER_KELVIN * TEMPERATURE_SPREAD_K;
    const tolerance = part.control?.kind === "duty" ? pulsedTolerance(part, part.control.share, ohm) : part.tolerance;
    parts.push({ at, perWhole, tolerance, byOhm: perWhole * tolerance, byVolt: part.group === "supply" ? 0 : byVolt });
  });
  return { parts, supply, temperature, unitVolts };
}

/** How far the share of the time a driver is on may be off, as a share of it. Common practice, no source. */
const DUTY_SHARE = 0.05;

/** Only a small part of what stands for a pulsed driver is its own resistance; the rest hangs on the pulses. */
function pulsedTolerance(part: Part, share: number, ohm: number): number {
  return Math.hypot((part.tolerance * part.ohm) / share / ohm, DUTY_SHARE);
}
