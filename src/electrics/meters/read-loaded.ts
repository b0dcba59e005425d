import { formatQuantity } from "../../base/index.ts";
import { voltAcross } from "../network/find-flips.ts";
import { settle } from "../network/settle.ts";
import { withTester } from "../network/with-tester.ts";
import { findPair, type Bench } from "./at-points.ts";
import { makeBand } from "./band.ts";
import { meterLimit } from "./meter-spec.ts";
import type { Because, PlainReading, Probe } from "./reading.ts";
import { voltSpread } from "./spread.ts";

/** The usual lamp for a loaded test, in watt at the nominal voltage. */
const USUAL_LAMP_WATT = 21;
/**
 * Cold resistance of a filament as a share of the hot one.
 *
 * Source: from memory, about a tenth.
 */
const COLD_SHARE = 0.1;

/**
 * What a voltmeter shows across a test lamp that is held between two points. The lamp is taken at its rated, hot resistance; a dim
 * lamp has less, so the band goes down to what a cold one gives.
 */
export function readLoaded(bench: Bench, probe: Extract<Probe, { kind: "loaded" }>): PlainReading {
  const pair = findPair(bench, probe);
  if (pair.kind === "wrong-question") return pair;
  const { harness, settled, meter } = bench;
  const { red, black } = pair;
  const watt = probe.lampWatt ?? USUAL_LAMP_WATT;
  const ratedVolt = harness.document.system.nominalVolt;
  const hotOhm = ratedVolt ** 2 / watt;
  const hot = settle(withTester(settled.list, [red, black], hotOhm));
  if (hot.kind !== "settled") return hot;
  const value = voltAcross(hot.solved, red, black);
  if (!bench.isBandWanted) return { kind: "value", value, unit: "V", low: value, high: value, because: [] };
  const cold = settle(withTester(settled.list, [red, black], COLD_SHARE * hotOhm));
  if (cold.kind !== "settled") return cold;
  const limit = meterLimit(meter.volts, value);
  if (!limit) return { kind: "over-range", unit: "V", because: [] };
  const spread = voltSpread(hot, red, black);
  const band = makeBand({ settled: hot, unit: "V", value, spread, meter: { name: meter.name, ...limit }, scale: 1 });
  const coldValue = voltAcross(cold.solved, red, black);
  const because: Because[] = [
    { code: "current", text: `The lamp draws ${formatQuantity(Math.abs(value) / hotOhm, "A")}` },
    {
      code: "lamp",
      text: `${watt} W lamp taken at ${formatQuantity(hotOhm, "Ω")}, hot; while it is dim it has less, and the reading goes down to ${formatQuantity(coldValue, "V")}`,
    },
    ...band.because,
  ];
  const low = Math.min(band.low, coldValue - limit.limit);
  const high = Math.max(band.high, coldValue + limit.limit);
  return { kind: "value", value, unit: "V", low, high, because };
}
