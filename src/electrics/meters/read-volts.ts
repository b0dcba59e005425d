import { formatQuantity } from "../../base/index.ts";
import { ohmBetween } from "../solver/ask-solved.ts";
import { controlledParts } from "../network/controlled-parts.ts";
import { findFlips, voltAcross } from "../network/find-flips.ts";
import { withTesterHeld } from "../network/hold-tester.ts";
import { islandName } from "../network/node-volts.ts";
import { settle, type Settled } from "../network/settle.ts";
import type { SolvedNetwork } from "../solver/solve-network.ts";
import { findPair, type Bench } from "./at-points.ts";
import { makeBand } from "./band.ts";
import { meterLimit } from "./meter-spec.ts";
import type { Because, PlainReading, Probe } from "./reading.ts";
import { voltSpread, type Spread } from "./spread.ts";

/** From this resistance on what is behind a point shows on a meter, in ohm. */
const WEAK_OHM = 100e3;
/** A way that carries less than this is without load, in ampere. */
const LEAST_LOAD_AMPERE = 0.001;

/** What a voltmeter shows between two points. */
export function readVolts(bench: Bench, probe: Extract<Probe, { kind: "volts" | "drop" }>): PlainReading {
  const pair = findPair(bench, probe);
  if (pair.kind === "wrong-question") return pair;
  const { meter } = bench;
  const { red, black } = pair;
  const held = holdMeter(bench, red, black);
  if (held.kind !== "settled") return held;
  const { settled, solved } = held;
  if (settled.solved.islands[red] !== settled.solved.islands[black]) return floating(settled, red, black);
  const ohm = ohmBetween(settled.solved, red, black);
  const scale = meter.inputOhm / (meter.inputOhm + ohm);
  const value = withoutRounding(scale * voltAcross(settled.solved, red, black));
  const limit = meterLimit(meter.volts, value);
  if (!limit) return { kind: "over-range", unit: "V", because: [] };
  if (!bench.isBandWanted) return { kind: "value", value, unit: "V", low: value, high: value, because: [] };
  // What a part does to the reading goes by what flows with the meter in place.
  const spread = voltSpread({ ...settled, solved }, red, black);
  const band = makeBand({ settled, unit: "V", value, spread, meter: { name: meter.name, ...limit }, scale });
  const because = [...band.because];
  if (ohm >= WEAK_OHM) {
    const text = `Only ${formatQuantity(ohm, "Ω")} or more stand behind this point: another meter, or a damp connector, shows another voltage`;
    because.push({ code: "weak-source", text });
  }
  if (probe.kind === "drop") because.push(loadOf(settled, spread, ohm));
  return { kind: "value", value, unit: "V", low: band.low, high: band.high, because };
}

/** Less than any meter could show, and made by rounding. */
function withoutRounding(volt: number): number {
  return Math.abs(volt) < 1e-12 ? 0 : volt;
}

interface Held {
  readonly kind: "settled";
  /** As it stands with the meter in place, solved without it. */
  readonly settled: Settled;
  /** Solved with it. */
  readonly solved: SolvedNetwork;
}

/** The meter itself may decide whether a diode conducts; where it does, the machine is settled again with the meter in place. */
function holdMeter(
  { settled, meter }: Bench,
  red: number,
  black: number,
): Held | Exclude<ReturnType<typeof settle>, Settled> {
  const tester = { red, black, ohm: meter.inputOhm };
  const { list, modes, values } = settled;
  const held = withTesterHeld(settled.solved, tester);
  const { solved } = held;
  const hasDiode = controlledParts(list).some((at) => list.parts[at]?.control?.kind === "diode");
  if (!hasDiode || red === black || findFlips(list, modes, { values, ...held }).length === 0)
    return { kind: "settled", settled, solved };
  const again = settle(list, { modes, tester });
  return again.kind === "settled"
    ? { kind: "settled", settled: again, solved: withTesterHeld(again.solved, tester).solved }
    : again;
}

function floating(settled: Settled, red: number, black: number): PlainReading {
  const { list, solved } = settled;
  const isRedHome = solved.islands[red] === solved.islands[list.reference];
  const lost = isRedHome ? black : red;
  const island = islandName(settled, lost);
  const text = `Nothing ties ${list.nodeKeys[lost] ?? ""} to the other lead: the display wanders about 0 V, and that is no zero`;
  return { kind: "floating", island, because: [{ code: "floating", text }] };
}

/** The current in what stands in series between the leads, by which a drop means something. */
function loadOf(settled: Settled, spread: Spread, ohm: number): Because {
  const { list, values, solved } = settled;
  let ampere = 0;
  for (const { at } of spread.parts) {
    const [from, to] = [list.shape.from[at] ?? 0, list.shape.to[at] ?? 0];
    const resistance = values.ohm[at] ?? Infinity;
    const share = Math.abs((spread.unitVolts[from] ?? 0) - (spread.unitVolts[to] ?? 0)) / resistance;
    if (share < 0.5) continue;
    const driving = (solved.volts[from] ?? 0) - (solved.volts[to] ?? 0) + (values.volt[at] ?? 0);
    ampere = Math.max(ampere, Math.abs(driving) / resistance);
  }
  if (ampere >= LEAST_LOAD_AMPERE)
    return {
      code: "current",
      text: `${formatQuantity(ampere, "A")} flow through ${formatQuantity(ohm, "Ω")} between the leads`,
    };
  return { code: "no-load", text: "Nothing flows here: a drop of 0 V says nothing. Switch the load on and read again" };
}
