import { err, ok, type Result } from "../../base/index.ts";
import {
  isMeterCheck,
  listInspectionChecks,
  suspects,
  UNIT_OF_METER,
  verdictOf,
  type Candidate,
  type FaultMode,
  type InspectionCheck,
  type JobState,
  type MeterCheck,
} from "../../diagnosis/index.ts";
import { readingTable, TABLE_KINDS, type ReadingTable } from "../../simulation/index.ts";
import { fitBuild, type Harness, type HarnessDocument } from "../../harness-model/index.ts";
import type { EnteredReading, TrainingTask } from "../../job-records/index.ts";
import { accessOf, isReachableIn } from "../../measurement-safety/index.ts";
import { randomOfTask, readTaskCode, type CodeProblem } from "../code/task-code.ts";
import type { Level } from "../drills/drill.ts";
import { eventsOfCheck } from "../score/check-events.ts";
import { jobOfTask } from "../score/exercise-belief.ts";
import { REDUCE_ABOVE } from "../score/exercise-evidence.ts";
import { hiddenOf, hypothesisOf, machineCandidates, writtenFault } from "./inserted-fault.ts";
import { complaintWords, type ExerciseProblem, type FaultExercise, type ReadyExercise } from "./exercise-state.ts";
import { findSigns, isSilent } from "./signs.ts";
import { startExercise, stepExercise } from "./step-exercise.ts";

/** Modes of failure by how hard they are to find. Judgement; no source. */
const EASY: ReadonlySet<FaultMode> = new Set(["open", "blown", "unplugged", "dead", "stuck-open"]);
const HARD: ReadonlySet<FaultMode> = new Set(["intermittent", "cross-wired", "drift"]);

/**
 * Makes a fault-finding exercise, or says why it cannot be made. A code gives the same exercise on every computer: the fault is drawn by whole
 * numbers from the list of candidates in the order of their ids.
 *
 * @param task A code, or a fault that a trainer wrote.
 * @param asksHypothesis Whether a hypothesis is asked for before each action.
 */
export function makeExercise(
  document: HarnessDocument,
  task: TrainingTask,
  asksHypothesis = false,
): Result<ReadyExercise, ExerciseProblem> {
  return task.kind === "code"
    ? exerciseOfCode(document, task.code, asksHypothesis)
    : exerciseAsWritten(document, task, asksHypothesis);
}

function exerciseOfCode(
  document: HarnessDocument,
  code: string,
  asksHypothesis: boolean,
): Result<ReadyExercise, ExerciseProblem> {
  const read = readTaskCode(document, code);
  if (!read.ok) return read;
  const { topic, level, build, number } = read.value;
  if (topic !== "exercise") return fail("not-an-exercise", "The code is for drills, not for a fault-finding exercise");
  const harness = fitBuild(document, build);
  if (!harness) return fail("unknown-build", `The harness data has no variant "${build}"`);
  const title = code.toUpperCase().replace(/\s/gu, "");
  const random = randomOfTask(read.value);
  for (const candidate of random.shuffle(machineCandidates(harness))) {
    const severity = random.integer(0, candidate.levels.length - 1);
    if (levelOfExercise(candidate, severity) !== level || !canBeProvoked(harness, candidate)) continue;
    const hidden = hiddenOf(candidate, severity);
    const signs = findSigns(harness, hidden.faults);
    if (!signs || isSilent(signs)) continue;
    const complaint = complaintWords(harness, signs, hidden.isIntermittent);
    const task = { title, build, level, number, hidden, signs, complaint, asksHypothesis };
    if (isFairDraw(harness, task)) return ok({ harness, task });
  }
  return fail("no-fault", "This machine has no fault of this level that shows and that permitted tests can find");
}

/**
 * Whether the complaint leads to the circuits that the fault is in, so that checks can lead there and a path can be reckoned with, and
 * permitted checks can find it. What is not is passed over, and the draw goes on with the same dice.
 */
function isFairDraw(harness: Harness, task: FaultExercise): boolean {
  const job = jobOfTask(harness, task);
  if (!job.ok) return false;
  const { id } = task.hidden.candidate;
  const isSuspect = job.value.model.hypotheses.some(({ candidates }) => candidates.some((each) => each.id === id));
  return isSuspect && isFair(job.value, task);
}

/**
 * Whether there is a way to make a fault show when it is looked for: one that comes and goes must sit where a connector or a stretch of
 * harness can be moved with the key on. Rings on studs and what lies under covers that only come off with the key off are not drawn.
 */
function canBeProvoked(harness: Harness, { mode, item, places }: Candidate): boolean {
  if (mode !== "intermittent") return true;
  if (places.segments.length > 0) return true;
  const on = harness.document.states.find(({ conditions }) => conditions.length === 1 && conditions[0] === "key-on");
  return (
    item.type === "contact" &&
    places.connectors.some((id) => {
      const connector = harness.fitted.connectors.get(id);
      return connector !== undefined && on !== undefined && isReachableIn(accessOf(harness, connector)?.states, on);
    })
  );
}

/** How hard a fault is to find: by the way it fails, and a slight severity is harder than a plain one. */
function levelOfExercise({ mode, levels }: Candidate, severity: number): Level {
  if (HARD.has(mode)) return 3;
  if (EASY.has(mode)) return 1;
  return levels.length > 1 && severity === 0 && mode === "high-resistance" ? 3 : 2;
}

/** Why a fault that shows cannot be hunted for. */
const NOT_TOLD =
  "No permitted test finds this fault: every reading in the circuits of the complaint stays normal, and inspection, wiggle, drag and substitution tests show nothing";

function exerciseAsWritten(
  document: HarnessDocument,
  task: Extract<TrainingTask, { kind: "written" }>,
  asksHypothesis: boolean,
): Result<ReadyExercise, ExerciseProblem> {
  const harness = fitBuild(document, task.build);
  if (!harness) return fail("unknown-build", `The harness data has no variant "${task.build}"`);
  const hidden = writtenFault(harness, task.fault, task.comesAndGoes);
  if (!hidden.ok) return fail("wrong-fault", hidden.error);
  const signs = findSigns(harness, hidden.value.faults);
  if (!signs)
    return fail("no-sign", "With this fault the machine has no steady state, so readings cannot be calculated");
  if (isSilent(signs)) return fail("no-sign", "This fault shows no symptom and sets no DTC");
  const words = complaintWords(harness, signs, hidden.value.isIntermittent);
  const { title, build, level } = task;
  const complaint = task.words === undefined || task.words.trim() === "" ? words : [task.words];
  // Chance in a written task hangs on its text, so that it is the same for everybody.
  const number = [...task.fault].reduce(
    (sum, character) => (sum * 31 + (character.codePointAt(0) ?? 0)) % 1_000_003,
    7,
  );
  const made = { title, build, level, number, hidden: hidden.value, signs, complaint, asksHypothesis };
  const job = jobOfTask(harness, made);
  if (job.ok && !isTold(job.value, made)) return fail("not-told", NOT_TOLD);
  return ok({ harness, task: made });
}

function fail(
  code: Exclude<ExerciseProblem["code"], CodeProblem["code"]> | "unknown-build",
  message: string,
): Result<ReadyExercise, ExerciseProblem> {
  return err({ code, message });
}

/**
 * A fault that no reading tells must be among so many of the likeliest repairs when the hunt begins: looking and moving show a fault only
 * where it is, so there must be a reason to go there. Judgement, no source; docs/methods/training.md says how the planner does with it.
 */
const MOST_AHEAD = 10;

/** Two shares closer than this are the same: sums differ in their last digits between machines. */
const SAME_SHARE = 1.000001;

/**
 * Whether somebody who does permitted checks can find the hidden fault with a reasonable number of them: a reading tells it from the sound
 * machine; or looking, moving, pulling or exchanging shows it, and it is among the likeliest causes of the complaint.
 *
 * @param job The job that the complaint begins.
 */
function isFair(job: JobState, task: FaultExercise): boolean {
  if (readingTells(job, task)) return true;
  return repairsAhead(job, task) < MOST_AHEAD && handTells(job, task);
}

/**
 * Whether any permitted check tells the hidden fault from the sound machine: those of the circuits the complaint leads to, and what may be
 * done by hand where the fault is.
 *
 * @param job The job that the complaint begins.
 */
function isTold(job: JobState, task: FaultExercise): boolean {
  return readingTells(job, task) || handTells(job, task);
}

/** Repairs that are clearly more likely than that of the hidden fault when the hunt begins; all of them where it is no suspect. */
function repairsAhead(job: JobState, { hidden }: FaultExercise): number {
  const list = suspects(job).filter(({ group }) => group >= 0);
  const own = list.find(({ label }) => label === hidden.candidate.repair)?.share ?? 0;
  return list.filter(({ share }) => share > own * SAME_SHARE).length;
}

/** Whether a reading of the job is not as expected with the fault. What comes and goes shows in a reading by chance only, so none tells it. */
function readingTells(job: JobState, { hidden }: FaultExercise): boolean {
  if (hidden.isIntermittent) return false;
  const { harness, model } = job;
  const standings = new Map<string, MeterCheck[]>();
  for (const check of model.checks.values()) {
    if (!isMeterCheck(check)) continue;
    const key = [check.need.state, ...check.need.unplugged].join(" ");
    standings.set(key, [...(standings.get(key) ?? []), check]);
  }
  return [...standings.values()].some((checks) => {
    const [first] = checks;
    if (!first) return false;
    const table = readingTable(harness, {
      operatingConditions: { unplugged: first.need.unplugged },
      states: [first.need.state],
      faultSets: [[], hidden.faults],
      pairs: checks.map(({ kind, red, black }) => ({ kind, red: red.at ?? "", black: black.at ?? "" })),
      reduceAbove: REDUCE_ABOVE,
    });
    return checks.some((check, at) => {
      const [sound, faulty] = [givenIn(table, check, at), givenIn(table, check, checks.length + at)];
      if (!sound || !faulty || verdictOf(job, check, faulty) !== "fail") return false;
      // Where not even the sound machine reads as expected, the reading tells nothing.
      return verdictOf(job, check, sound) === "pass";
    });
  });
}

/** A cell of a table as it would be written down; undefined where there is no reading. */
function givenIn({ values, kinds }: ReadingTable, { kind }: MeterCheck, cell: number): EnteredReading | undefined {
  const shown = TABLE_KINDS[kinds[cell] ?? -1];
  if (shown === "value") {
    const value = values[cell] ?? 0;
    return { kind: "value", text: String(value), value, unit: UNIT_OF_METER[kind], isMeterProven: true };
  }
  if (shown === "overload") return { kind: "overload", isMeterProven: true };
  return shown === "floating" || shown === "no-steady-state" ? { kind: "unstable" } : undefined;
}

/** Whether looking, moving, pulling or exchanging where the fault is shows it in this hunt. */
function handTells({ harness, model }: JobState, task: FaultExercise): boolean {
  const own = hypothesisOf(task.hidden);
  const there = own ? listInspectionChecks(harness, [own]) : [];
  const listed = new Map<string, InspectionCheck>(there.map((check) => [check.key, check]));
  for (const check of model.checks.values()) if (!isMeterCheck(check)) listed.set(check.key, check);
  const start = startExercise(harness, { ...task, asksHypothesis: false });
  return [...listed.values()].some((check) => {
    const seen = eventsOfCheck(start, check).reduce(stepExercise, start).steps.at(-1)?.seen;
    return seen?.kind === "outcome" && !seen.isNormal;
  });
}
