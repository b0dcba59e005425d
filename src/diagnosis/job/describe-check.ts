import { formatQuantity, unreachable } from "../../base/index.ts";
import { readMeter } from "../../electrics/index.ts";
import type { Harness } from "../../model/index.ts";
import type { RecordedCheck } from "../../records/index.ts";
import { isMeterCheck, type Check, type HandCheck, type MeterCheck } from "../checks/check.ts";
import { outcomesOf } from "../checks/hand-outcomes.ts";

/** A check in words. */
export interface DescribedCheck {
  readonly key: string;
  readonly kind: Check["kind"];
  /** One line: what is done where. */
  readonly title: string;
  /** What to do, in order. */
  readonly steps: readonly string[];
  /** The state of the machine, by id and in words. */
  readonly state: string;
  readonly condition: string;
  readonly unplugged: readonly string[];
  /** Points of the leads, red first; what is looked at for a check without a meter. */
  readonly points: readonly string[];
  /** What the healthy machine shows. */
  readonly expected: string;
  readonly expectedLow?: number;
  readonly expectedHigh?: number;
  readonly cautions: readonly string[];
}

/**
 * Describes a check: what to do, where, in which state, what a healthy machine shows.
 *
 * @param harness The harness.
 * @param check The check.
 */
export function describeCheck(harness: Harness, check: Check): DescribedCheck {
  const state = harness.document.states.find(({ id }) => id === check.need.state);
  const common = {
    key: check.key,
    kind: check.kind,
    state: check.need.state,
    condition: state?.label ?? check.need.state,
    unplugged: check.need.unplugged,
  };
  return isMeterCheck(check)
    ? { ...common, ...meterWords(harness, check) }
    : { ...common, ...handWords(harness, check) };
}

type Words = Omit<DescribedCheck, "key" | "kind" | "state" | "condition" | "unplugged">;

function meterWords(harness: Harness, check: MeterCheck): Words {
  const { red, black, kind, need } = check;
  const points = [red.at ?? red.id, black.at ?? black.id];
  const named = [red.unplug, black.unplug];
  const others = need.unplugged.filter((id) => !named.includes(id));
  const steps = [
    ...others.map((id) => offStep(check, id)),
    `Red lead: ${red.how}`,
    `Black lead: ${black.how}`,
    kind === "volts" ? "Read the volts." : "Zero the leads, read the ohms, then touch the leads together once more.",
  ];
  return {
    title: `${kind === "volts" ? "Volts" : "Ohms"} from ${points.join(" to ")}`,
    steps,
    points,
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

/** What the healthy machine shows, with its band. */
function expectedReading(
  harness: Harness,
  { kind, red, black, need }: MeterCheck,
): Pick<Words, "expected" | "expectedLow" | "expectedHigh"> {
  const situation = { state: need.state, unplugged: need.unplugged };
  const probe = { kind, red: red.at ?? "", black: black.at ?? "" };
  const reading = readMeter(harness, { situation, probe, compareWith: [] });
  switch (reading.kind) {
    case "value": {
      const unit = kind === "volts" ? "V" : "Ω";
      const band = [reading.low, reading.high].map((value) => formatQuantity(value, unit, 3));
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

function handWords(harness: Harness, check: HandCheck): Words {
  const { kind, at, need } = check;
  const [healthy] = outcomesOf(check);
  const name = at.id;
  const remove = harness.fitted.connectors.get(name)?.access?.remove;
  const reach = remove === undefined ? [] : [`Reach ${name}: ${remove}.`];
  const open = need.unplugged.map(
    (id) => `Key off, unplug ${id}. If it was not plugged in, that is what you have seen.`,
  );
  const cautions = [...new Set(need.places.length > 0 ? zoneCautions(harness, check) : [])];
  const words: Readonly<Record<HandCheck["kind"], readonly [string, string]>> = {
    look: [
      `Look at ${name}`,
      "Look for chafe, tension, water, green or black deposits, pushed-back terminals, torn seals, heat, and earlier repairs.",
    ],
    wiggle: [
      `Move ${name} and watch`,
      "Watch the function, or a reading of the circuit with minimum and maximum stored, and move the harness gently a hand's width at a time.",
    ],
    drag: [
      `Pull test at ${name}`,
      "Slide a new terminal of the same series in from the mating side: it must need force to pull out. Then pull the wire lightly: the terminal must stay.",
    ],
    swap: [
      `Exchange ${name} for a known-good one`,
      "Note where the old part came from. Try the function again under the conditions of the complaint.",
    ],
  };
  const [title, step] = words[kind];
  return { title, steps: [...reach, ...open, step], points: [name], expected: healthy.label, cautions };
}

function zoneCautions(harness: Harness, { at, need }: HandCheck): readonly string[] {
  const zone =
    harness.fitted.connectors.get(at.id)?.zone ??
    harness.segments.get(at.id)?.zone ??
    harness.fitted.components.get(at.id.split(".")[0] ?? "")?.zone;
  const hazards = harness.document.zones.find(({ id }) => id === zone)?.hazards ?? [];
  const own = hazards.filter(({ states }) => states === undefined || states.some((state) => state === need.state));
  const cautions = harness.document.cautions.filter(
    ({ on }) => on === undefined || on.zones?.some((id) => id === zone),
  );
  return [...own.map(({ text }) => text), ...cautions.map(({ text }) => text)];
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
