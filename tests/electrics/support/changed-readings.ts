import {
  HAND_METER,
  meterLimit,
  readMeter,
  type Fault,
  type MeterSpec,
  type Probe,
  type Reading,
  type Situation,
} from "ohmward/electrics";
import type { Harness } from "ohmward/model";

/** A reading that a fault changes. */
interface ChangedReading {
  readonly probe: Probe;
  readonly healthy: Reading;
  readonly faulty: Reading;
}

/**
 * What faults do to readings: those that a meter can tell from the healthy ones.
 *
 * @param harness The machine in one build.
 * @param question The healthy situation, the faults on top of it, what is measured, the meter.
 * @returns The changed readings in the order of the probes. A change is another kind of reading, or values further apart than the
 *   meter's limit at both.
 */
export function changedReadings(
  harness: Harness,
  question: {
    readonly situation: Situation;
    readonly faults: readonly Fault[];
    readonly probes: readonly Probe[];
    readonly meter?: MeterSpec;
  },
): readonly ChangedReading[] {
  const { situation, probes, meter = HAND_METER } = question;
  const faultySituation = { ...situation, faults: [...(situation.faults ?? []), ...question.faults] };
  return probes.flatMap((probe) => {
    const ask = { probe, meter, compareWith: [] };
    const healthy = readMeter(harness, { ...ask, situation });
    const faulty = readMeter(harness, { ...ask, situation: faultySituation });
    return isTold(healthy, faulty, meter) ? [{ probe, healthy, faulty }] : [];
  });
}

function isTold(healthy: Reading, faulty: Reading, meter: MeterSpec): boolean {
  if (healthy.kind !== "value" || faulty.kind !== "value") return healthy.kind !== faulty.kind;
  const how = { V: meter.volts, Ω: meter.ohms, A: meter.clampAmps, "%": meter.duty }[healthy.unit];
  const limits = [healthy.value, faulty.value].map((value) => meterLimit(how, value)?.limit ?? 0);
  return Math.abs(healthy.value - faulty.value) > limits.reduce((sum, limit) => sum + limit, 0);
}
