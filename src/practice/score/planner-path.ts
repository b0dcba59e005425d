import {
  isMeterCheck,
  nextCheck,
  noteEvent,
  takeReading,
  type Check,
  type JobState,
  type Suggestion,
} from "../../diagnosis/index.ts";
import type { GivenReading, HuntEvent } from "../../records/index.ts";
import type { HuntState } from "../hunt/hunt-state.ts";
import type { ReadyHunt } from "../hunt/hunt-task.ts";
import { startHunt, stepHunt } from "../hunt/step-hunt.ts";
import { eventsOfCheck } from "./check-events.ts";
import { jobOfTask } from "./hunt-belief.ts";
import { givenOf } from "./hunt-evidence.ts";
import { repairAndProve } from "./repair-and-prove.ts";
import { searchByHand } from "./search-by-hand.ts";
import { suspectsOf } from "./suspects-of.ts";

/** What the planner did by itself, as if it were a trainee. */
export interface PlannerPath {
  readonly hunt: HuntState;
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
 *
 * @param ready The task on its machine.
 */
export function planPath({ harness, task }: ReadyHunt): PlannerPath {
  // Nobody has to be asked for a hypothesis: what this path suspects is known after each check.
  const start = startHunt(harness, { ...task, asksHypothesis: false });
  const first = jobOfTask(harness, task);
  if (!first.ok) return { hunt: start, ending: "no-job", checks: 0, repairs: 0, inOrder: [] };
  let job = first.value;
  let hunt = start;
  let checks = 0;
  let most = MOST_CHECKS;
  let hasSearched = false;
  const ruledOut = new Set<string>();
  const inOrder: string[] = [];
  while (ruledOut.size < MOST_REPAIRS) {
    const next = nextCheck(job);
    const isCheck = next.kind === "check" || next.kind === "recheck" || next.kind === "prove-meter";
    if (isCheck && checks < most) {
      ({ hunt, job } = takeCheck(hunt, job, { key: next.check.key, isProving: next.kind === "prove-meter" }));
      checks += 1;
      continue;
    }
    if (isCheck && !hasSearched) {
      const search = searchByHand({ hunt, job, checks }, takeCheck);
      ({ hunt, job, checks } = search);
      hasSearched = true;
      most = search.isFound ? checks + FOLLOW_UP : checks;
      continue;
    }
    const label = (isCheck ? suspectsOf(job).map((each) => each.label) : repairsOf(next)).find(
      (each) => !ruledOut.has(each),
    );
    const cause = label === undefined ? undefined : causeOf(job, label);
    if (label === undefined || !cause) break;
    ruledOut.add(label);
    // What it tries when it has checked enough is its order too.
    if (next.kind === "repair-in-order" || isCheck) inOrder.push(label);
    const tried = repairAndProve(hunt, cause);
    hunt = tried.hunt;
    if (tried.isGone) {
      const ending = next.kind === "repair" ? "sure" : isCheck ? "by-suspicion" : "in-order";
      return { hunt: stepHunt(hunt, { kind: "end" }), ending, checks, repairs: ruledOut.size, inOrder };
    }
    // What was repaired and left the complaint as it was is no suspect any more.
    job = noteEvent(job, { kind: "prior", of: label, factor: 0, origin: "repaired, the complaint stayed" }, STAMP);
  }
  return { hunt: stepHunt(hunt, { kind: "end" }), ending: "not-found", checks, repairs: ruledOut.size, inOrder };
}

/** Does a check of the job in the hunt and writes the reading down. */
export function takeCheck(
  hunt: HuntState,
  job: JobState,
  { key, isProving = false }: { readonly key: string; readonly isProving?: boolean },
): { readonly hunt: HuntState; readonly job: JobState } {
  const check = job.workup.checks.get(key);
  if (!check) throw new RangeError(`Cannot take "${key}": no such check`);
  const proving: readonly HuntEvent[] = isProving ? [{ kind: "prove-meter" }] : [];
  const off = seenOff(hunt, job, check);
  if (off) return off;
  const ready = [...eventsOfCheck(hunt, check)];
  const last = ready.pop();
  const done = [...ready, ...proving, ...(last ? [last] : [])].reduce(stepHunt, hunt);
  const taken = takeReading(job, { key, given: readingOf(done, isProving), stamp: STAMP });
  if (!taken.ok) throw new RangeError(`Cannot take "${key}": ${taken.error.kind}`);
  return { hunt: done, job: taken.value };
}

/** The first connector to be opened was never plugged in: that is seen, written down as a look, and the check waits. */
function seenOff(
  hunt: HuntState,
  job: JobState,
  check: Check,
): { readonly hunt: HuntState; readonly job: JobState } | undefined {
  let now = hunt;
  for (const event of eventsOfCheck(hunt, check)) {
    if (event.kind === "measure" || event.kind === "look") return undefined;
    now = stepHunt(now, event);
    if (event.kind !== "open" || now.steps.at(-1)?.seen.kind !== "outcome") continue;
    const look = [...job.workup.checks.values()].find(
      (each) => each.kind === "look" && !isMeterCheck(each) && each.at.id === event.connector,
    );
    if (!look || job.facts.readings.some((reading) => reading.check.key === look.key)) return undefined;
    const taken = takeReading(job, { key: look.key, given: { kind: "outcome", outcome: "damage" }, stamp: STAMP });
    return taken.ok ? { hunt: now, job: taken.value } : undefined;
  }
  return undefined;
}

function readingOf(hunt: HuntState, isProven: boolean): GivenReading {
  const seen = hunt.steps.at(-1)?.seen;
  if (seen?.kind === "reading") return givenOf(seen.display, isProven);
  if (seen?.kind === "outcome") return { kind: "outcome", outcome: seen.outcome };
  const reason = seen?.kind === "stopped" ? seen.reason : seen?.kind === "not-ready" ? seen.text : "";
  return { kind: "cannot-be-done", reason: reason.slice(0, 600) };
}

function repairsOf(next: Suggestion): readonly string[] {
  switch (next.kind) {
    case "repair":
      return [next.suspect.label];
    case "repair-in-order":
      return next.order.map(({ label }) => label);
    case "look-wider":
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
  { workup, belief }: Pick<JobState, "workup" | "belief">,
  label: string,
): Extract<HuntEvent, { kind: "name" }> | undefined {
  const group = workup.groups.indexOf(label);
  let best: number | undefined;
  workup.hypotheses.forEach((hypothesis, at) => {
    if (hypothesis.group === group && (best === undefined || (belief[at] ?? 0) > (belief[best] ?? 0))) best = at;
  });
  const candidate = best === undefined ? undefined : workup.hypotheses[best]?.candidates[0];
  return candidate && { kind: "name", cause: candidate.id };
}
