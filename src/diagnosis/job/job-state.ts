import type { Harness } from "../../harness-model/index.ts";
import { replayEvents, type JobFacts, type JobRecord, type CurrentReading } from "../../job-records/index.ts";
import { isImprobable, updateBelief, type Evidence } from "../belief/evidence.ts";
import type { Check } from "../checks/check.ts";
import { COSTS } from "../checks/cost-table.ts";
import { changeSetup, type WorkSetup } from "../checks/setups.ts";
import { evidenceOf, type ReadVolts } from "./evidence-of-reading.ts";
import { makeDiagnosisModel, type DiagnosisModel } from "./diagnosis-model.ts";

/** A job as it stands: all of it follows from the harness and the record. */
export interface JobState {
  readonly harness: Harness;
  readonly record: JobRecord;
  readonly facts: JobFacts;
  readonly model: DiagnosisModel;
  /** Probability of each hypothesis, the last one "something else". */
  readonly belief: Float64Array;
  /** What each reading said, beside what codes and functions say. */
  readonly readingEvidence: readonly Evidence[];
  /** Keys of checks whose readings fitted none of the remaining causes, in the order they were taken. */
  readonly improbableReadings: readonly string[];
  /** Where the work stands. */
  readonly setup: WorkSetup;
  /** Minutes planned for what was done. */
  readonly minutes: number;
}

/** Two improbable readings, or this probability of something else, and pairs of faults are added. */
const WIDEN_AT = 0.3;

/** Works out where a job stands. The same record gives the same state, so undoing and correcting are nothing but longer records. */
export function stateOfJob(harness: Harness, record: JobRecord): JobState {
  const facts = replayEvents(record);
  const single = makeDiagnosisModel(harness, { facts, hasPairs: false });
  const first = follow(single, facts);
  const elseShare = first.belief.at(-1) ?? 0;
  const isWidened = first.improbableReadings.length >= 2 || (elseShare >= WIDEN_AT && facts.readings.length > 0);
  const model = isWidened ? makeDiagnosisModel(harness, { facts, hasPairs: true }) : single;
  const { improbableReadings } = first;
  const { belief, readingEvidence } = isWidened ? follow(model, facts) : first;
  const beliefs = { belief, readingEvidence, improbableReadings };
  return { harness, record, facts, model, ...beliefs, ...whereWorkStands(harness, model, facts) };
}

function follow(
  model: DiagnosisModel,
  { readings }: JobFacts,
): Pick<JobState, "belief" | "readingEvidence" | "improbableReadings"> {
  const readingEvidence: Evidence[] = [];
  const improbableReadings: string[] = [];
  const volts: ReadVolts[] = [];
  let belief = updateBelief(model.priors, model.evidence);
  for (const reading of readings) {
    const said = evidenceOfCurrent(model, reading, volts);
    if (!said) continue;
    const voltage = voltsOf(model, reading);
    if (voltage && !volts.some(({ check }) => check.key === voltage.check.key)) volts.push(voltage);
    const isNamed = (index: number): boolean => index < model.hypotheses.length;
    const isFirst = !readingEvidence.some(({ key }) => key === said.key);
    if (isFirst && isImprobable(said, belief, isNamed)) improbableReadings.push(said.key);
    readingEvidence.push(said, ...openedEvidence(model, reading, readings));
    belief = updateBelief(model.priors, [...model.evidence, ...readingEvidence]);
  }
  return { belief, readingEvidence, improbableReadings };
}

/** How often a person who disconnects a connector does not notice that it was off. Common practice, no source. */
const OVERLOOKED = 0.05;

/** A person who opens a connector sees that it was mated; had it been off, that would have been recorded. */
function openedEvidence(
  { hypotheses, checks }: DiagnosisModel,
  { check, given }: CurrentReading,
  all: readonly CurrentReading[],
): readonly Evidence[] {
  const known = checks.get(check.key);
  if (!known || known.kind === "visual-inspection" || given.kind === "not-possible") return [];
  // Where something was seen, it may have been just that.
  const seen = new Set(all.flatMap((each) => (each.verdict === "fail" ? [lookedAt(checks.get(each.check.key))] : [])));
  const opened = known.need.unplugged.filter((id) => !seen.has(id));
  return opened.map((id): Evidence => {
    const likelihoods = hypotheses.map(({ candidates }) =>
      candidates.some(({ mode, item }) => mode === "unplugged" && item.id === id) ? OVERLOOKED : 1,
    );
    return { key: `opened ${id}`, likelihoods: Float64Array.of(...likelihoods, 1), even: 1 };
  });
}

function lookedAt(check: Check | undefined): string | undefined {
  return check?.kind === "visual-inspection" ? check.at.id : undefined;
}

function evidenceOfCurrent(
  model: DiagnosisModel,
  { check, given }: CurrentReading,
  volts: readonly ReadVolts[],
): Evidence | undefined {
  const known = model.checks.get(check.key);
  return known && evidenceOf(model, known, given, volts);
}

function voltsOf(model: DiagnosisModel, { check, given }: CurrentReading): ReadVolts | undefined {
  const known = model.checks.get(check.key);
  return known?.kind === "dc-voltage" && given.kind === "value" ? { check: known, volt: given.value } : undefined;
}

function whereWorkStands(
  harness: Harness,
  model: DiagnosisModel,
  { readings }: JobFacts,
): Pick<JobState, "setup" | "minutes"> {
  const { states } = harness.document;
  const byId = new Map(states.map((state): [string, (typeof states)[number]] => [state.id, state]));
  const rest =
    states.find(({ conditions }) => conditions.includes("key-off")) ??
    states.find(({ conditions }) => conditions.includes("battery-disconnected")) ??
    states[0];
  let setup: WorkSetup = { state: rest?.id ?? "", unplugged: [], reached: [] };
  let minutes = 0;
  for (const { check, given } of readings) {
    const known = model.checks.get(check.key);
    if (!known || given.kind === "not-possible") continue;
    const change = changeSetup(setup, known.need, { byId, costs: COSTS });
    minutes += change.minutes + known.minutes;
    setup = change.next;
  }
  return { setup, minutes };
}
