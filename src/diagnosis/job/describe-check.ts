import { formatQuantity, keptFor, keptIn, unreachable } from "../../base/index.ts";
import { readMeter } from "../../simulation/index.ts";
import type { Harness } from "../../harness-model/index.ts";
import type { RecordedCheck } from "../../job-records/index.ts";
import { isMeterCheck, type Check, type InspectionCheck, type MeterCheck } from "../checks/check.ts";
import { outcomesOf } from "../checks/inspection-outcomes.ts";

/** Describes a check: what to do, where, in which state, what a healthy machine shows. */
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
    kind === "dc-voltage"
      ? "Read the volts."
      : "Zero the leads, read the ohms, then touch the leads together once more.",
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
  const isMeter = kind === "dc-voltage" || kind === "resistance";
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

/** One line for a check: what is done where, without what it should show. */
export function titleOf(check: Check): string {
  if (!isMeterCheck(check)) return HAND_TITLES[check.kind](check.at.id);
  return `${check.kind === "dc-voltage" ? "Volts" : "Ohms"} from ${pointsOf(check).join(" to ")}`;
}

/** The state of the machine that a check is taken in, in words. */
export function conditionOf(harness: Harness, { need }: Check): string {
  return harness.document.states.find(({ id }) => id === need.state)?.label ?? need.state;
}

const HAND_TITLES: Readonly<Record<InspectionCheck["kind"], (name: string) => string>> = {
  "visual-inspection": (name) => `Look at ${name}`,
  wiggle: (name) => `Move ${name} and watch`,
  "terminal-drag": (name) => `Pull test at ${name}`,
  substitute: (name) => `Exchange ${name} for a known-good one`,
};

/** Points of the leads, red first. */
function pointsOf({ red, black }: MeterCheck): readonly [string, string] {
  return [red.at ?? red.id, black.at ?? black.id];
}

/** Words of a check without a meter, as far as they depend on its kind. */
type HandWords = Pick<DescribedCheck, "title" | "steps" | "points" | "expected" | "cautions">;

/** Describes a check without a meter: how to reach it, what to do, what a sound machine shows, what to beware of. */
function handWords(harness: Harness, check: InspectionCheck): HandWords {
  const { kind, at, need } = check;
  const [normal] = outcomesOf(check);
  const remove = (harness.fitted.connectors.get(at.id) ?? harness.fitted.terminalStuds.get(at.id))?.access?.remove;
  const reach = remove === undefined ? [] : [`Reach ${at.id}: ${remove}.`];
  const open = need.unplugged.map(
    (id) => `Key off, unplug ${id}. If it was not plugged in, that is what you have seen.`,
  );
  const cautions = [...new Set(need.places.length > 0 ? zoneCautions(harness, check) : [])];
  const steps = [...reach, ...open, HAND_STEPS[kind](at)];
  return { title: titleOf(check), steps, points: [at.id], expected: normal.label, cautions };
}

/** What is done at each sort of check without a meter. */
const HAND_STEPS: Readonly<Record<InspectionCheck["kind"], (at: InspectionCheck["at"]) => string>> = {
  "visual-inspection": ({ type }) =>
    type === "stud"
      ? "Look for corrosion, heat, paint under the rings, a loose nut, lugs torn from their cables."
      : "Look for chafe, tension, water, green or black deposits, pushed-back terminals, torn seals, heat, and earlier repairs.",
  wiggle: () =>
    "Watch the function, or a reading of the circuit with minimum and maximum stored, and move the harness gently a hand's width at a time.",
  "terminal-drag": () =>
    "Slide a new terminal of the same series in from the mating side: it must need force to pull out. Then pull the wire lightly: the terminal must stay.",
  substitute: () => "Note where the old part came from. Try the function again under the conditions of the complaint.",
};

function zoneCautions(harness: Harness, { at, need }: InspectionCheck): readonly string[] {
  const zone =
    harness.fitted.connectors.get(at.id)?.zone ??
    harness.segments.get(at.id)?.zone ??
    harness.fitted.terminalStuds.get(at.id)?.zone ??
    harness.fitted.components.get(at.id.split(".")[0] ?? "")?.zone;
  const hazards = harness.document.zones.find(({ id }) => id === zone)?.hazards ?? [];
  const own = hazards.filter(({ states }) => states === undefined || states.some((state) => state === need.state));
  const cautions = harness.document.cautions.filter(
    ({ on }) => on === undefined || on.zones?.some((id) => id === zone),
  );
  return [...own.map(({ text }) => text), ...cautions.map(({ text }) => text)];
}

/** What a check shows on the healthy machine. */
interface Expected {
  readonly expected: string;
  /** Band in volt or ohm, where it is a number. */
  readonly expectedLow?: number;
  readonly expectedHigh?: number;
}

// A harness never changes, so neither does what it shows when nothing is wrong. A check is described when it is proposed and when it is read.
const expectations = keptFor((_: Harness) => new Map<string, Expected>());

/** What the healthy machine shows at a meter check, in words and as a band. */
function expectedReading(harness: Harness, check: MeterCheck): Expected {
  return keptIn(expectations(harness), check.key, () => readHealthy(harness, check));
}

function readHealthy(harness: Harness, { kind, red, black, need }: MeterCheck): Expected {
  const operatingConditions = { state: need.state, unplugged: need.unplugged };
  const probe = { kind, red: red.at ?? "", black: black.at ?? "" };
  const reading = readMeter(harness, { operatingConditions, probe, compareWith: [] });
  switch (reading.kind) {
    case "value": {
      const unit = kind === "dc-voltage" ? "V" : "Ω";
      const band = [reading.low, reading.high].map((value) => formatQuantity(value, unit));
      return { expected: band.join(" to "), expectedLow: reading.low, expectedHigh: reading.high };
    }
    case "floating":
      return { expected: "a floating point: near 0 V, not steady" };
    case "overload":
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
