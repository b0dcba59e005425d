import type { QuantityScale } from "../../base/index.ts";
import { HAND_METER, type MeterFunction } from "../../simulation/index.ts";
import type { Harness } from "../../harness-model/index.ts";
import { fromScale, isSpecial, OVER_RANGE, UNIT_OF_METER, UNKNOWN } from "../belief/meter-scale.ts";
import type { MeterCheck } from "../checks/check.ts";
import type { DiagnosisModel } from "./diagnosis-model.ts";

/** A machine of 12 V is jump-started with 24 V and charged with 29. Common practice, no source. */
const MOST_OF_NOMINAL = 2.5;
/** Midway, by ratio, to the reading that another prefix gives: nearer to the next one a value is more likely a wrong prefix. */
const FAR = 30;

/**
 * What can be expected of a voltage anywhere in a machine; a value outside is asked about, never rejected.
 *
 * @returns Volts, without sign.
 */
function voltScale({ document }: Harness): QuantityScale {
  return { low: 0, high: MOST_OF_NOMINAL * document.system.nominalVolt, most: highest(HAND_METER.volts) };
}

/**
 * What can be expected of a reading of a check: under any hypothesis and without a fault, and well beyond.
 *
 * @returns Volts or ohms, without sign.
 */
export function readingScale(model: DiagnosisModel, check: MeterCheck): QuantityScale {
  const unit = UNIT_OF_METER[check.kind];
  const { normal, faulty } = model.readings(check, [...model.hypotheses.keys()]);
  const values = [normal, ...faulty]
    .filter((point) => point !== UNKNOWN && !isSpecial(point))
    .map((point) => Math.abs(fromScale(point, unit)));
  if (unit === "V") {
    const scale = voltScale(model.harness);
    return { ...scale, high: Math.max(scale.high, ...values) };
  }
  const most = highest(HAND_METER.ohms);
  const few = values.filter((value) => value > 0);
  // Through an open line a meter may show anything that hides in control units.
  if (normal === OVER_RANGE || faulty.includes(OVER_RANGE))
    return { low: few.length === 0 ? 0 : Math.min(...few) / FAR, high: most, most: Infinity };
  return few.length === 0
    ? { low: 0, high: most, most: Infinity }
    : { low: Math.min(...few) / FAR, high: Math.min(most, Math.max(...few) * FAR), most: Infinity };
}

function highest({ ranges }: MeterFunction): number {
  return Math.max(...ranges.map(([most]) => most));
}
