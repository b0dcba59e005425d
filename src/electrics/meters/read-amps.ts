import { unknownTarget } from "../faults/find-target.ts";
import { branchAmpere } from "../network/branch-ampere.ts";
import type { Bench } from "./at-points.ts";
import { makeBand } from "./band.ts";
import { meterLimit } from "./meter-spec.ts";
import type { PlainReading, Probe } from "./reading.ts";
import { voltSpread } from "./spread.ts";

/** What a clamp around a wire shows, positive from the first end of the wire to its second. */
export function readAmps(bench: Bench, probe: Extract<Probe, { kind: "amps" }>): PlainReading {
  const { harness, settled, meter } = bench;
  const { list, values } = settled;
  const at = list.parts.findIndex((part) => part.key === probe.wire && part.group === "wire");
  if (at < 0) return { kind: "wrong-question", problems: [unknownTarget(harness, probe.wire, "wire")] };
  const value = branchAmpere(settled, at);
  if (value === undefined) {
    const text = `${probe.wire} has no size or length in the data, so its share of the current cannot be told`;
    return { kind: "refused", disconnect: [], because: [{ code: "no-figure", text }] };
  }
  const limit = meterLimit(meter.clampAmps, value);
  if (!limit) return { kind: "over-range", unit: "A", because: [] };
  if (!bench.isBandWanted) return { kind: "value", value, unit: "A", low: value, high: value, because: [] };
  const ohm = values.ohm[at] ?? Infinity;
  const known = { name: meter.name, ...limit };
  if (ohm === Infinity || ohm === 0) {
    const because = [{ code: "meter", text: `Meter (${meter.name})` } as const];
    return { kind: "value", value, unit: "A", low: value - limit.limit, high: value + limit.limit, because };
  }
  const whole = voltSpread(settled, list.shape.from[at] ?? 0, list.shape.to[at] ?? 0);
  // More resistance in the wire itself raises the voltage along it and yet lowers its current.
  const parts = whole.parts.map((part) => {
    if (part.at !== at) return part;
    const perWhole = part.perWhole - value * ohm;
    return { ...part, perWhole, byOhm: perWhole * (list.parts[at]?.tolerance ?? 0) };
  });
  const spread = { ...whole, parts };
  const band = makeBand({ settled, unit: "A", value, spread, meter: known, scale: 1 / ohm });
  return { kind: "value", value, unit: "A", ...band };
}
