import { keptFor, keptIn } from "../../base/index.ts";
import {
  FLOATING,
  INTERMITTENT_FAILS,
  isMeterCheck,
  needsVerification,
  outcomeEvidence,
  OVER_RANGE,
  readingLikelihoods,
  toleranceOf,
  toScale,
  UNIT_OF_METER,
  UNKNOWN,
  UNSTEADY,
  type Evidence,
  type InspectionCheck,
  type JobState,
  type MeterCheck,
  type ReadValue,
} from "../../diagnosis/index.ts";
import { readingTable, TABLE_KINDS, type TablePair } from "../../simulation/index.ts";
import { lookUpPoint, pointKey, type Harness } from "../../harness-model/index.ts";
import type { EnteredReading } from "../../job-records/index.ts";
import type { Display, ExerciseStep } from "../exercise/exercise-state.ts";

type DiagnosisModel = JobState["model"];

/** Above so many parts everything outside the circuit is reduced first. */
export const REDUCE_ABOVE = 150;

/** A display as a reading is written down. */
export function givenOf(display: Display, isProven: boolean): EnteredReading {
  if (display.is === "overload") return { kind: "overload", isMeterProven: isProven };
  if (display.is === "wanders" || display.value === undefined) return { kind: "unstable" };
  return { kind: "value", text: display.text, value: display.value, unit: display.unit, isMeterProven: isProven };
}

/**
 * What a step says about every hypothesis of a workup: a reading in volts or ohms between any two points, or what looking, moving, pulling
 * and exchanging showed. Clamp and lamp say nothing here, because no reading of theirs is worked out for every hypothesis.
 */
export function evidenceOfStep(model: DiagnosisModel, step: ExerciseStep): Evidence | undefined {
  const { seen, event, probe } = step;
  const hand = seen.kind === "outcome" ? handEvent(event) : undefined;
  if (hand && seen.kind === "outcome") return handEvidence(model, { ...hand, outcome: seen.outcome });
  if (seen.kind !== "reading" || !probe || (probe.kind !== "dc-voltage" && probe.kind !== "resistance"))
    return undefined;
  const read = readValue(seen.display);
  const rows = rowsOf(model, step, { kind: probe.kind, red: probe.red, black: probe.black });
  const { likelihoods, even } = readingLikelihoods(modelOf(model, probe.kind, rows), read);
  const { state, unplugged } = step.standing;
  const own = [probe.kind, state, probe.red, probe.black, ...unplugged].join(" ");
  return {
    key: checkOf(model, step.standing, { kind: probe.kind, red: probe.red, black: probe.black })?.key ?? own,
    likelihoods: Float64Array.of(...likelihoods, even),
    even,
    isDoubtful: needsVerification(givenOf(seen.display, step.isProven)),
  };
}

/** What was done by hand; opening a connector and finding it off is looking at it. */
function handEvent(event: ExerciseStep["event"]): Pick<InspectionCheck, "kind" | "at"> | undefined {
  if (
    event.kind === "visual-inspection" ||
    event.kind === "wiggle" ||
    event.kind === "terminal-drag" ||
    event.kind === "substitute"
  )
    return { kind: event.kind, at: event.at };
  return event.kind === "open"
    ? { kind: "visual-inspection", at: { type: "connector", id: event.connector } }
    : undefined;
}

function readValue(display: Display): ReadValue {
  if (display.is === "overload") return { kind: "overload" };
  if (display.is === "wanders" || display.value === undefined) return { kind: "unstable" };
  return { kind: "value", value: display.value };
}

interface Rows {
  readonly normal: number;
  readonly faulty: Float64Array;
}

// A workup never changes; readings that are no check of its own are worked out once.
const rowsKnown = keptFor((_: DiagnosisModel) => new Map<string, Rows>());

function rowsOf(model: DiagnosisModel, { standing }: ExerciseStep, pair: TablePair): Rows {
  const all = [...model.hypotheses.keys()];
  const check = checkOf(model, standing, pair);
  if (check) return model.readings(check, all);
  const key = [pair.kind, standing.state, pair.red, pair.black, ...standing.unplugged].join(" ");
  return keptIn(rowsKnown(model), key, () => {
    const table = readingTable(model.harness, {
      operatingConditions: { unplugged: standing.unplugged },
      states: [standing.state],
      faultSets: [[], ...model.hypotheses.map(({ faults }) => faults)],
      pairs: [pair],
      reduceAbove: REDUCE_ABOVE,
    });
    const points = Float64Array.from(table.kinds, (kind, at) => onScale(pair, kind, table.values[at] ?? 0));
    return { normal: points[0] ?? UNKNOWN, faulty: points.slice(1) };
  });
}

function onScale({ kind }: TablePair, cell: number, value: number): number {
  const shown = TABLE_KINDS[cell];
  if (shown === "value") return toScale(value, UNIT_OF_METER[kind]);
  if (shown === "floating") return FLOATING;
  if (shown === "overload") return OVER_RANGE;
  return shown === "no-steady-state" ? UNSTEADY : UNKNOWN;
}

/** The check of the workup that this reading is, leads the same way round. */
function checkOf(model: DiagnosisModel, standing: ExerciseStep["standing"], pair: TablePair): MeterCheck | undefined {
  const { harness, checks } = model;
  const [red, black] = [canonical(harness, pair.red), canonical(harness, pair.black)];
  const off = [...standing.unplugged].sort().join();
  for (const check of checks.values()) {
    if (!isMeterCheck(check) || check.kind !== pair.kind || check.need.state !== standing.state) continue;
    if (check.red.at === red && check.black.at === black && [...check.need.unplugged].sort().join() === off)
      return check;
  }
  return undefined;
}

function canonical(harness: Harness, address: string): string {
  if (harness.nodeNumbers.has(address)) return address;
  const point = lookUpPoint(harness.book, address, { by: "wire" });
  return point.kind === "none" ? address : pointKey(point);
}

function modelOf(
  model: DiagnosisModel,
  kind: "dc-voltage" | "resistance",
  { normal, faulty }: Rows,
): Parameters<typeof readingLikelihoods>[0] {
  const unit = UNIT_OF_METER[kind];
  const isLoose = (at: number): boolean => model.hypotheses[at]?.isIntermittent === true;
  const points = faulty.map((point, at) => (isLoose(at) ? normal : point));
  return {
    kind: "scale",
    unit,
    points,
    spreads: points.map((point, at) => Math.hypot(toleranceOf(point, unit), halfGap(model, faulty, at))),
    others: faulty,
    otherShares: faulty.map((_, at) => (isLoose(at) ? INTERMITTENT_FAILS : 0)),
  };
}

/** Half the way to the next severity of the same candidate: a fault in between must find a hypothesis that foresaw its reading. */
function halfGap({ hypotheses }: DiagnosisModel, faulty: Float64Array, at: number): number {
  const own = faulty[at] ?? UNKNOWN;
  const candidate = hypotheses[at]?.candidates[0];
  if (!Number.isFinite(own) || own === UNKNOWN || candidate?.mode === "drift") return 0;
  const gaps = [at - 1, at + 1].map((next) => {
    const other = faulty[next] ?? UNKNOWN;
    const isSame = hypotheses[next]?.candidates[0] === candidate && Number.isFinite(other) && other !== UNKNOWN;
    return isSame ? Math.abs(other - own) / 2.5 : 0;
  });
  return Math.max(...gaps);
}

function handEvidence(
  model: DiagnosisModel,
  {
    kind,
    at,
    outcome,
  }: { readonly kind: InspectionCheck["kind"]; readonly at: InspectionCheck["at"]; readonly outcome: string },
): Evidence | undefined {
  const check: InspectionCheck = {
    kind,
    key: `${kind} ${at.id}`,
    at,
    minutes: 0,
    need: { state: "", unplugged: [], places: [] },
  };
  const evidence = outcomeEvidence(model, check, outcome);
  const known = [...model.checks.values()].find(
    (each) => each.kind === kind && !isMeterCheck(each) && each.at.id === at.id,
  );
  return evidence && { ...evidence, key: known?.key ?? check.key };
}
