import type { Harness } from "../../model/index.ts";
import type { RecordedCheck } from "../../records/index.ts";
import { isMeterCheck, type Check, type MeterCheck } from "../checks/check.ts";
import { conditionOf, pointsOf, titleOf } from "./check-title.ts";
import type { DescribedCheck } from "./described-check.ts";
import { expectedReading } from "./expected-reading.ts";
import { handWords } from "./hand-words.ts";

/**
 * Describes a check: what to do, where, in which state, what a healthy machine shows.
 *
 * @param harness The harness.
 * @param check The check.
 */
export function describeCheck(harness: Harness, check: Check): DescribedCheck {
  const common = {
    key: check.key,
    kind: check.kind,
    state: check.need.state,
    condition: conditionOf(harness, check),
    unplugged: check.need.unplugged,
  };
  return isMeterCheck(check)
    ? { ...common, ...meterWords(harness, check) }
    : { ...common, ...handWords(harness, check) };
}

type Words = Omit<DescribedCheck, "key" | "kind" | "state" | "condition" | "unplugged">;

function meterWords(harness: Harness, check: MeterCheck): Words {
  const { red, black, kind, need } = check;
  const named = [red.unplug, black.unplug];
  const others = need.unplugged.filter((id) => !named.includes(id));
  const steps = [
    ...others.map((id) => offStep(check, id)),
    `Red lead: ${red.how}`,
    `Black lead: ${black.how}`,
    kind === "volts" ? "Read the volts." : "Zero the leads, read the ohms, then touch the leads together once more.",
  ];
  return {
    title: titleOf(check),
    steps,
    points: pointsOf(check),
    ...expectedReading(harness, check),
    cautions: [...new Set([...red.cautions, ...black.cautions])],
  };
}

/** An adapter in line at the very connector that stays off sits on its harness half alone. */
function offStep({ red, black }: MeterCheck, id: string): string {
  const isInLine = [red, black].some(({ adapter, item }) => adapter !== undefined && item.id.startsWith(`${id}.`));
  return isInLine
    ? `Key off, unplug ${id}: the adapter goes onto its harness half only, the control unit stays off.`
    : `Key off, unplug ${id} and leave it off. If it was not plugged in, write that down as what was seen at ${id}.`;
}

/** A check as it is written into the record. */
export function recordCheck(described: DescribedCheck, minutes: number): RecordedCheck {
  const { key, kind, points, condition, unplugged, expected, title } = described;
  const isMeter = kind === "volts" || kind === "ohms";
  return {
    key,
    kind,
    point: isMeter ? `red ${points[0] ?? ""}, black ${points[1] ?? ""}` : title,
    condition,
    setup: unplugged.map((id) => `${id} unplugged`),
    meter: isMeter ? kind : "no meter",
    expected,
    minutes,
  };
}
