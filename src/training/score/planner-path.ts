import {
  faultyShare,
  isMeterCheck,
  nextCheck,
  NOT_MATED,
  noteEvent,
  suspects,
  takeReading,
  type Check,
  type InspectionCheck,
  type JobState,
  type Suggestion,
  type CandidateProbability,
} from "../../diagnosis/index.ts";
import { isKeyOn } from "../../harness-model/index.ts";
import type { EnteredReading, ExerciseEvent } from "../../job-records/index.ts";
import { stateOf, type ExerciseState, type ExerciseStep, type ReadyExercise } from "../exercise/exercise-state.ts";
import { isSilent, liveStates } from "../exercise/signs.ts";
import { startExercise, stepExercise } from "../exercise/step-exercise.ts";
import { eventsOfCheck, keyOffState } from "./check-events.ts";
import { jobOfTask } from "./exercise-belief.ts";
import { givenOf } from "./exercise-evidence.ts";

/** What the planner did by itself, as if it were a trainee. */
export interface PlannerPath {
  readonly exercise: ExerciseState;
  /** How it ended: what it was sure of, repairs tried in order, the best suspects after too many checks, or nothing found. */
  readonly ending: "sure" | "in-order" | "by-suspicion" | "not-found" | "no-job";
  /** Checks taken, and repairs tried. */
  readonly checks: number;
  readonly repairs: number;
  /** Repairs it tried in its order because no check told more, a repair was quicker than any, or it had checked enough. */
  readonly inOrder: readonly string[];
}

/** More checks than any sensible hunt takes; it then looks and moves place by place, and what shows is followed up by so many more. */
const MOST_CHECKS = 40;
const FOLLOW_UP = 10;
/** Repairs tried, if checks cannot tell. */
const MOST_REPAIRS = 8;
const STAMP = { at: "2000-01-01T00:00:00Z", writer: "p" };

/**
 * Lets the planner hunt for the hidden fault: it sees the complaint and the readings of the hunt and nothing else, does each check as a
 * trainee would, names and repairs what it is led to, and proves it.
 */
export function planPath({ harness, task }: ReadyExercise): PlannerPath {
  // Nobody has to be asked for a hypothesis: what this path suspects is known after each check.
  const start = startExercise(harness, { ...task, asksHypothesis: false });
  const first = jobOfTask(harness, task);
  if (!first.ok) return { exercise: start, ending: "no-job", checks: 0, repairs: 0, inOrder: [] };
  let job = first.value;
  let exercise = start;
  let checks = 0;
  let most = MOST_CHECKS;
  let hasSearched = false;
  const ruledOut = new Set<string>();
  const inOrder: string[] = [];
  while (ruledOut.size < MOST_REPAIRS) {
    const next = nextCheck(job);
    const isCheck = next.kind === "check" || next.kind === "recheck" || next.kind === "prove-meter";
    if (isCheck && checks < most) {
      ({ exercise, job } = takeCheck(exercise, job, { key: next.check.key, isProving: next.kind === "prove-meter" }));
      checks += 1;
      continue;
    }
    if (isCheck && !hasSearched) {
      const search = searchByHand({ exercise, job, checks }, takeCheck);
      ({ exercise, job, checks } = search);
      hasSearched = true;
      most = search.isFound ? checks + FOLLOW_UP : checks;
      continue;
    }
    const label = (isCheck ? possibleCausesOf(job).map((each) => each.label) : repairsOf(next)).find(
      (each) => !ruledOut.has(each),
    );
    const cause = label === undefined ? undefined : causeOf(job, label);
    if (label === undefined || !cause) break;
    ruledOut.add(label);
    // What it tries when it has checked enough is its order too.
    if (next.kind === "repair-in-order" || isCheck) inOrder.push(label);
    const tried = repairAndProve(exercise, cause);
    exercise = tried.exercise;
    if (tried.isGone) {
      const ending = next.kind === "repair" ? "sure" : isCheck ? "by-suspicion" : "in-order";
      return { exercise: stepExercise(exercise, { kind: "end" }), ending, checks, repairs: ruledOut.size, inOrder };
    }
    // What was repaired and left the complaint as it was is no suspect any more.
    job = noteEvent(job, { kind: "prior", of: label, factor: 0, origin: "repaired, the complaint stayed" }, STAMP);
  }
  return {
    exercise: stepExercise(exercise, { kind: "end" }),
    ending: "not-found",
    checks,
    repairs: ruledOut.size,
    inOrder,
  };
}

/** Does a check of the job in the hunt and writes the reading down. */
export function takeCheck(
  exercise: ExerciseState,
  job: JobState,
  { key, isProving = false }: { readonly key: string; readonly isProving?: boolean },
): { readonly exercise: ExerciseState; readonly job: JobState } {
  const check = job.model.checks.get(key);
  if (!check) throw new RangeError(`Cannot take "${key}": no such check`);
  const proving: readonly ExerciseEvent[] = isProving ? [{ kind: "prove-meter" }] : [];
  const off = seenOff(exercise, job, check);
  if (off) return off;
  const ready = [...eventsOfCheck(exercise, check)];
  const last = ready.pop();
  const done = [...ready, ...proving, ...(last ? [last] : [])].reduce(stepExercise, exercise);
  const taken = takeReading(job, { key, given: readingOf(done, isProving), stamp: STAMP });
  if (!taken.ok) throw new RangeError(`Cannot take "${key}": ${taken.error.kind}`);
  return { exercise: done, job: taken.value };
}

/** The first connector to be opened was never plugged in: that is seen, written down as a look, and the check waits. */
function seenOff(
  exercise: ExerciseState,
  job: JobState,
  check: Check,
): { readonly exercise: ExerciseState; readonly job: JobState } | undefined {
  let now = exercise;
  for (const event of eventsOfCheck(exercise, check)) {
    if (event.kind === "measure" || event.kind === "visual-inspection") return undefined;
    now = stepExercise(now, event);
    if (event.kind !== "open" || now.steps.at(-1)?.seen.kind !== "outcome") continue;
    const look = [...job.model.checks.values()].find(
      (each) => each.kind === "visual-inspection" && !isMeterCheck(each) && each.at.id === event.connector,
    );
    if (!look || job.facts.readings.some((reading) => reading.check.key === look.key)) return undefined;
    const taken = takeReading(job, { key: look.key, given: { kind: "outcome", outcome: NOT_MATED }, stamp: STAMP });
    return taken.ok ? { exercise: now, job: taken.value } : undefined;
  }
  return undefined;
}

function readingOf(exercise: ExerciseState, isProven: boolean): EnteredReading {
  const seen = exercise.steps.at(-1)?.seen;
  if (seen?.kind === "reading") return givenOf(seen.display, isProven);
  if (seen?.kind === "outcome") return { kind: "outcome", outcome: seen.outcome };
  const reason = seen?.kind === "stopped" ? seen.reason : seen?.kind === "not-ready" ? seen.text : "";
  return { kind: "not-possible", reason: reason.slice(0, 600) };
}

function repairsOf(next: Suggestion): readonly string[] {
  switch (next.kind) {
    case "repair":
      return [next.suspect.label];
    case "repair-in-order":
      return next.order.map(({ label }) => label);
    case "look-wider":
    case "no-electrical-fault":
      return next.suspects.filter(({ group }) => group >= 0).map(({ label }) => label);
    case "nothing-to-go-on":
    case "check":
    case "recheck":
    case "prove-meter":
      return [];
  }
}

/** The most believed hypothesis of a repair group, as it is named. */
export function causeOf(
  { model, belief }: Pick<JobState, "model" | "belief">,
  label: string,
): Extract<ExerciseEvent, { kind: "name" }> | undefined {
  const group = model.groups.indexOf(label);
  let best: number | undefined;
  model.hypotheses.forEach((hypothesis, at) => {
    if (hypothesis.group === group && (best === undefined || (belief[at] ?? 0) > (belief[best] ?? 0))) best = at;
  });
  const candidate = best === undefined ? undefined : model.hypotheses[best]?.candidates[0];
  return candidate && { kind: "name", cause: candidate.id };
}

/** Most places looked at or moved in a search, and the least chance that the next one shows anything. Judgement, no source. */
const MOST_PLACES = 25;
const LEAST_CHANCE = 0.005;

/** Where a path stands, with a number of checks taken. */
interface OnPath {
  readonly exercise: ExerciseState;
  readonly job: JobState;
  readonly checks: number;
}

/**
 * Looks at, moves, pulls and exchanges one place after another, each time the one that most likely shows something for its minutes, until
 * one does: what is left to do where readings lead no further.
 *
 * @param take Does a check of the job in the hunt.
 * @returns The path after it, and whether something showed.
 */
function searchByHand(
  start: OnPath,
  take: (
    exercise: ExerciseState,
    job: JobState,
    check: InspectionCheck,
  ) => { readonly exercise: ExerciseState; readonly job: JobState },
): OnPath & { readonly isFound: boolean } {
  let on = start;
  while (on.checks < start.checks + MOST_PLACES) {
    const check = nextPlace(on.job);
    if (!check) break;
    on = { ...take(on.exercise, on.job, check), checks: on.checks + 1 };
    const seen = on.exercise.steps.at(-1)?.seen;
    if (seen?.kind === "outcome" && !seen.isNormal) return { ...on, isFound: true };
  }
  return { ...on, isFound: false };
}

/** The check without a meter, not done yet, that most likely shows something for each minute of it. */
function nextPlace({ model, belief, facts }: JobState): InspectionCheck | undefined {
  const done = new Set(facts.readings.map(({ check }) => check.key));
  let best: { readonly check: InspectionCheck; readonly rate: number } | undefined;
  for (const check of model.checks.values()) {
    if (isMeterCheck(check) || done.has(check.key)) continue;
    const alarm = faultyShare(check, undefined);
    const chance = model.hypotheses.reduce(
      (sum, hypothesis, at) => sum + (belief[at] ?? 0) * (faultyShare(check, hypothesis) - alarm),
      0,
    );
    const rate = chance / check.need.places.reduce((sum, { minutes }) => sum + minutes, check.minutes);
    if (chance >= LEAST_CHANCE && (!best || rate > best.rate)) best = { check, rate };
  }
  return best?.check;
}

/**
 * Names a cause, repairs it, plugs everything in again, takes the last reading again that was taken, and tries the complaint.
 *
 * @returns The hunt after it, and whether the complaint is gone.
 */
export function repairAndProve(
  exercise: ExerciseState,
  cause: Extract<ExerciseEvent, { kind: "name" }>,
): { readonly exercise: ExerciseState; readonly isGone: boolean } {
  const off = keyOffState(exercise, exercise.setup.state);
  let now = stepExercise(exercise, cause);
  if (now.setup.state !== off) now = stepExercise(now, { kind: "state", to: off });
  now = stepExercise(now, { ...cause, kind: "repair" });
  const again = now.isRepaired ? lastReading(exercise) : undefined;
  if (again) now = takeAgain(now, again);
  now = closeAll(now);
  now = stepExercise(now, { kind: "try", state: complaintState(exercise) });
  const seen = now.steps.at(-1)?.seen;
  return { exercise: now, isGone: seen?.kind === "tried" && isSilent(seen.signs) };
}

/** The state in which the complaint shows: of the first bad function, otherwise key on. */
function complaintState({ harness, task }: ExerciseState): string {
  const [first] = task.signs.functions;
  return first?.state ?? liveStates(harness)[0]?.id ?? "";
}

function lastReading({ steps }: ExerciseState): ExerciseStep | undefined {
  return steps.findLast(({ seen, event }) => seen.kind === "reading" && event.kind === "measure");
}

/** The same leads in the same state with the same connectors open. */
function takeAgain(exercise: ExerciseState, { event, standing }: ExerciseStep): ExerciseState {
  let now = exercise;
  const close = now.setup.unplugged.filter((id) => !standing.unplugged.includes(id));
  const open = standing.unplugged.filter((id) => !now.setup.unplugged.includes(id));
  for (const connector of close) now = stepExercise(now, { kind: "close", connector });
  for (const connector of open) now = stepExercise(now, { kind: "open", connector });
  if (now.setup.state !== standing.state) now = stepExercise(now, { kind: "state", to: standing.state });
  return stepExercise(now, event);
}

function closeAll(exercise: ExerciseState): ExerciseState {
  let now = exercise;
  const state = stateOf(now.harness, now.setup.state);
  if (now.setup.unplugged.length > 0 && state && isKeyOn(state))
    now = stepExercise(now, { kind: "state", to: keyOffState(now, "") });
  for (const connector of now.setup.unplugged) now = stepExercise(now, { kind: "close", connector });
  return now;
}

/** The named suspects of a job, most likely first; "something else" is left out. */
export function possibleCausesOf(job: JobState): readonly CandidateProbability[] {
  return suspects(job).filter(({ group }) => group >= 0);
}
