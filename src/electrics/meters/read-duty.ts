import { voltAcross } from "../network/find-flips.ts";
import type { PartList } from "../network/part.ts";
import { settle } from "../network/settle.ts";
import { findPair, type Bench } from "./at-points.ts";
import { meterLimit } from "./meter-spec.ts";
import type { PlainReading, Probe } from "./reading.ts";

/** A meter counts pulses from about this height on, in volt. Common practice, no source. */
const LEAST_PULSE_VOLT = 1;

/** Share of the time the red point is high against the black one, in percent; refused where no pulsed driver moves it. */
export function readDuty(bench: Bench, probe: Extract<Probe, { kind: "duty" }>): PlainReading {
  const pair = findPair(bench, probe);
  if (pair.kind === "wrong-question") return pair;
  const { settled, meter } = bench;
  const { list } = settled;
  for (const [at, part] of list.parts.entries()) {
    if (part.control?.kind !== "duty" || settled.values.ohm[at] === Infinity) continue;
    const [on, off] = [true, false].map((present) => {
      const fixed = settle(withPart(list, at, present));
      return fixed.kind === "settled" ? voltAcross(fixed.solved, pair.red, pair.black) : undefined;
    });
    if (on === undefined || off === undefined || Math.abs(on - off) < LEAST_PULSE_VOLT) continue;
    const { share } = part.control;
    const value = 100 * (on > off ? share : 1 - share);
    const { limit } = meterLimit(meter.duty, value) ?? { limit: 1 };
    const text = `${part.owner} is on ${Math.round(100 * share)} % of the time and pulls the point ${on > off ? "up" : "down"}`;
    const because = [{ code: "average", text } as const];
    return {
      kind: "value",
      value,
      unit: "%",
      low: Math.max(0, value - limit),
      high: Math.min(100, value + limit),
      because,
    };
  }
  const text = "No driver pulses this point in this state, so a duty reading means nothing";
  return { kind: "refused", disconnect: [], because: [{ code: "no-figure", text }] };
}

function withPart(list: PartList, at: number, present: boolean): PartList {
  return {
    ...list,
    parts: list.parts.map((part, number) => (number === at ? { ...part, present, control: undefined } : part)),
  };
}
