import { formatQuantity, keptFor, keptIn, unreachable } from "../../base/index.ts";
import { readMeter } from "../../simulation/index.ts";
import { METER_NAMES } from "../../measurement-safety/index.ts";
import { ITEM_NAMES } from "../../connectivity/index.ts";
import type { Harness } from "../../harness-model/index.ts";
import type { RecordedCheck } from "../../job-records/index.ts";
import { UNIT_OF_METER } from "../belief/meter-scale.ts";
import { isMeterCheck, type Check, type InspectionCheck, type MeterCheck } from "../checks/check.ts";
import { outcomesOf } from "../checks/inspection-outcomes.ts";
import { checkSteps } from "./check-steps.ts";

/** Describes a check: what to do, where, in which state, what a machine without a fault shows. */
export function describeCheck(harness: Harness, check: Check): DescribedCheck {
  return {
    key: check.key,
    kind: check.kind,
    title: checkTitle(harness, check),
    steps: checkSteps(harness, check),
    state: check.need.state,
    condition: conditionOf(harness, check),
    unplugged: check.need.unplugged,
    ...(isMeterCheck(check) ? meterWords(harness, check) : inspectionWords(harness, check)),
  };
}

/** What depends on the kind of check. */
type Words = Pick<DescribedCheck, "points" | "expected" | "expectedLow" | "expectedHigh" | "cautions">;

function meterWords(harness: Harness, check: MeterCheck): Words {
  const { red, black } = check;
  return {
    points: pointsOf(check),
    ...expectedReading(harness, check),
    cautions: [...new Set([...red.cautions, ...black.cautions])],
  };
}

function inspectionWords(harness: Harness, check: InspectionCheck): Words {
  const [normal] = outcomesOf(check);
  const cautions = [...new Set(check.need.places.length > 0 ? zoneCautions(harness, check) : [])];
  return { points: [check.at.id], expected: normal.label, cautions };
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
    setup: unplugged.map(disconnectedWords),
    meter: isMeter ? METER_NAMES[kind] : "no meter",
    expected,
    minutes,
  };
}

/** How a connector that is off for a check is named beside its condition. */
export function disconnectedWords(id: string): string {
  return `${id} disconnected`;
}

/** One line for a check: what is done where, without what it should show. */
export function checkTitle(harness: Harness, check: Check): string {
  if (!isMeterCheck(check)) return `${INSPECTION_NAMES[check.kind]}, ${itemWords(harness, check.at)}`;
  return `${check.kind === "dc-voltage" ? "DC voltage" : "Resistance"} from ${pointsOf(check).join(" to ")}`;
}

/** The state of the machine that a check is taken in, in words. */
export function conditionOf(harness: Harness, { need }: Check): string {
  return harness.document.states.find(({ id }) => id === need.state)?.label ?? need.state;
}

const INSPECTION_NAMES: Readonly<Record<InspectionCheck["kind"], string>> = {
  "visual-inspection": "Visual inspection",
  wiggle: "Wiggle test",
  "terminal-drag": "Terminal drag test",
  substitute: "Substitution test",
};

/** Items whose sort is said beside their name. */
const SAID: ReadonlySet<InspectionCheck["at"]["type"]> = new Set(["connector", "segment", "stud"]);

/** The item of a check: "Rail pressure sensor (B3), connector B3.X, pin 2, harness side". */
function itemWords(harness: Harness, { type, id }: InspectionCheck["at"]): string {
  const [owner = "", cavity] = type === "contact" ? id.split(":") : [id];
  const connector = harness.fitted.connectors.get(owner);
  const component = harness.fitted.components.get(connector?.component ?? id.split(".")[0] ?? "");
  const part = component === undefined ? [] : [`${component.label} (${component.id})`];
  if (type === "component" && component) return part.join(", ");
  const sides = harness.fitted.sides.get(owner) ?? [];
  // The test terminal goes into the side of the harness; where both sides are harness the data does not say which.
  const isOfPart = sides.some((side) => side.id === "device");
  return [
    ...part,
    [type === "contact" ? "connector" : SAID.has(type) ? ITEM_NAMES[type] : undefined, owner]
      .filter((word) => word !== undefined)
      .join(" "),
    ...(cavity === undefined ? [] : [`pin ${cavity}`, ...(isOfPart ? ["harness side"] : [])]),
  ].join(", ");
}

/** Points of the leads, red first. */
function pointsOf({ red, black }: MeterCheck): readonly [string, string] {
  return [red.at ?? red.id, black.at ?? black.id];
}

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

/** What a check shows on a machine without a fault. */
interface Expected {
  readonly expected: string;
  /** Limits in volt or ohm, where it is a number. */
  readonly expectedLow?: number;
  readonly expectedHigh?: number;
}

// A harness never changes, so neither does what it shows when nothing is wrong. A check is described when it is proposed and when it is read.
const expectations = keptFor((_: Harness) => new Map<string, Expected>());

/** What a machine without a fault shows at a meter check, in words and as limits. */
function expectedReading(harness: Harness, check: MeterCheck): Expected {
  return keptIn(expectations(harness), check.key, () => readNormal(harness, check));
}

function readNormal(harness: Harness, { kind, red, black, need }: MeterCheck): Expected {
  const operatingConditions = { state: need.state, unplugged: need.unplugged };
  const probe = { kind, red: red.at ?? "", black: black.at ?? "" };
  const reading = readMeter(harness, { operatingConditions, probe, compareWith: [] });
  switch (reading.kind) {
    case "value": {
      const unit = UNIT_OF_METER[kind];
      const limits = [reading.low, reading.high].map((value) => formatQuantity(value, unit));
      return { expected: limits.join(" to "), expectedLow: reading.low, expectedHigh: reading.high };
    }
    case "floating":
      return { expected: "floating point: not 0 V, unstable reading" };
    case "overload":
      return { expected: "OL (over range)" };
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
  /** Points of the leads, red first; the item of a check without a meter. */
  readonly points: readonly string[];
  /** What a machine without a fault shows. */
  readonly expected: string;
  readonly expectedLow?: number;
  readonly expectedHigh?: number;
  readonly cautions: readonly string[];
}
