import {
  HAND_METER,
  meterLimit,
  readMeter,
  type Fault,
  type MeterSpec,
  type Probe,
  type Reading,
  type OperatingConditions,
} from "ohmward/simulation";
import type { Harness } from "ohmward/harness-model";

/** A reading that a fault changes. */
interface ChangedReading {
  readonly probe: Probe;
  readonly normal: Reading;
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
    readonly operatingConditions: OperatingConditions;
    readonly faults: readonly Fault[];
    readonly probes: readonly Probe[];
    readonly meter?: MeterSpec;
  },
): readonly ChangedReading[] {
  const { operatingConditions, probes, meter = HAND_METER } = question;
  const faultyOperatingConditions = {
    ...operatingConditions,
    faults: [...(operatingConditions.faults ?? []), ...question.faults],
  };
  return probes.flatMap((probe) => {
    const ask = { probe, meter, compareWith: [] };
    const normal = readMeter(harness, { ...ask, operatingConditions });
    const faulty = readMeter(harness, { ...ask, operatingConditions: faultyOperatingConditions });
    return isTold(normal, faulty, meter) ? [{ probe, normal, faulty }] : [];
  });
}

function isTold(normal: Reading, faulty: Reading, meter: MeterSpec): boolean {
  if (normal.kind !== "value" || faulty.kind !== "value") return normal.kind !== faulty.kind;
  const how = { V: meter.volts, Ω: meter.ohms, A: meter.clampAmps, "%": meter.duty }[normal.unit];
  const limits = [normal.value, faulty.value].map((value) => meterLimit(how, value)?.limit ?? 0);
  return Math.abs(normal.value - faulty.value) > limits.reduce((sum, limit) => sum + limit, 0);
}
