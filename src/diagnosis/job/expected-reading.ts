import { formatQuantity, unreachable } from "../../base/index.ts";
import { readMeter } from "../../electrics/index.ts";
import type { Harness } from "../../model/index.ts";
import type { MeterCheck } from "../checks/check.ts";

/** What a check shows on the healthy machine. */
export interface Expected {
  readonly expected: string;
  /** Band in volt or ohm, where it is a number. */
  readonly expectedLow?: number;
  readonly expectedHigh?: number;
}

// A harness never changes, so neither does what it shows when nothing is wrong. A check is described when it is proposed and when it is read.
const known = new WeakMap<Harness, Map<string, Expected>>();

/**
 * What the healthy machine shows at a meter check, in words and as a band.
 *
 * @param harness The harness.
 * @param check The check.
 */
export function expectedReading(harness: Harness, check: MeterCheck): Expected {
  const ofHarness = known.get(harness) ?? new Map<string, Expected>();
  known.set(harness, ofHarness);
  const before = ofHarness.get(check.key);
  if (before) return before;
  const expected = readHealthy(harness, check);
  ofHarness.set(check.key, expected);
  return expected;
}

function readHealthy(harness: Harness, { kind, red, black, need }: MeterCheck): Expected {
  const situation = { state: need.state, unplugged: need.unplugged };
  const probe = { kind, red: red.at ?? "", black: black.at ?? "" };
  const reading = readMeter(harness, { situation, probe, compareWith: [] });
  switch (reading.kind) {
    case "value": {
      const unit = kind === "volts" ? "V" : "Ω";
      const band = [reading.low, reading.high].map((value) => formatQuantity(value, unit));
      return { expected: band.join(" to "), expectedLow: reading.low, expectedHigh: reading.high };
    }
    case "floating":
      return { expected: "a floating point: near 0 V, not steady" };
    case "over-range":
      return { expected: "over range" };
    case "refused":
    case "contradictory":
    case "no-steady-state":
    case "wrong-question":
      return { expected: "not known" };
    default:
      return unreachable(reading);
  }
}
