import { readMeter, type Fault } from "ohmward/simulation";
import {
  isMeterCheck,
  nextCheck,
  outcomesOf,
  startJob,
  takeReading,
  type Check,
  type JobState,
  type NewJob,
  type Suggestion,
} from "ohmward/diagnosis";
import type { Harness } from "ohmward/harness-model";
import type { EnteredReading } from "ohmward/job-records";
import { fitDemo, openDemo } from "../demo-harness/open-demo.ts";

const document = openDemo();
const fitted = new Map<string, Harness>();

/** The demo machine in a build, fitted once a test file. */
export function demo(build = "base"): Harness {
  const known = fitted.get(build) ?? fitDemo(document, build);
  fitted.set(build, known);
  return known;
}

/** A moment; the clock of a test stands still. */
export const stamp = { at: "2031-01-05T07:30:00Z", writer: "t" };

/** A job with codes or bad functions and nothing else said. */
export function newJob(codes: readonly string[], bad: readonly string[] = [], more: Partial<NewJob> = {}): NewJob {
  return {
    id: "J-1",
    stamp,
    complaint: { words: "as told", conditions: { presence: "always" }, recentWork: [] },
    codes: codes.map((code) => ({ code, status: "active" })),
    symptoms: bad.map((item) => ({ item, is: "bad" })),
    ...more,
  };
}

/** Begins a job; throws if it is refused. */
export function begin(job: NewJob, harness = demo()): JobState {
  const started = startJob(harness, job);
  if (!started.ok) throw new Error(JSON.stringify(started.error));
  return started.value;
}

/** What a sound or faulty machine shows at a check: the solver's reading, or the outcome asked for. */
export function reading(check: Check, faults: readonly Fault[], isSeen = false, harness = demo()): EnteredReading {
  if (!isMeterCheck(check)) return { kind: "outcome", outcome: outcomesOf(check)[isSeen ? 1 : 0].id };
  const operatingConditions = { state: check.need.state, unplugged: check.need.unplugged, faults };
  const probe = { kind: check.kind, red: check.red.at ?? "", black: check.black.at ?? "" };
  const shown = readMeter(harness, { operatingConditions, probe, compareWith: [] });
  if (shown.kind === "overload") return { kind: "overload", isMeterProven: true };
  if (shown.kind !== "value") return { kind: "unstable" };
  const unit = check.kind === "dc-voltage" ? "V" : "Ω";
  return {
    kind: "value",
    text: `${shown.value.toPrecision(4)} ${unit}`,
    value: shown.value,
    unit,
    isMeterProven: true,
  };
}

/** Takes a reading; throws if it is refused. */
export function take(state: JobState, key: string, given: EnteredReading): JobState {
  const taken = takeReading(state, { key, given, stamp });
  if (!taken.ok) throw new Error(JSON.stringify(taken.error));
  return taken.value;
}

/** Whoever goes to open a connector that is not plugged in sees it, and writes down the look instead. */
function seenInstead(state: JobState, faults: readonly Fault[], check: Check | undefined): Check | undefined {
  const off = faults.flatMap((fault) => (fault.kind === "unplugged" ? [fault.of] : []));
  const seen = check?.need.unplugged.find((id) => off.includes(id));
  if (seen === undefined || check?.kind === "visual-inspection") return check;
  const look = [...state.model.checks.values()].find(
    (each) => each.kind === "visual-inspection" && each.at.id === seen,
  );
  return look && !state.facts.readings.some((done) => done.check.key === look.key) ? look : check;
}

/** Follows the suggestions on a machine with a fault until they end. `isSeen` says what a look would show. */
export function follow(
  job: JobState,
  faults: readonly Fault[],
  isSeen: (check: Check) => boolean = () => false,
): { readonly state: JobState; readonly end: Suggestion; readonly checks: readonly string[] } {
  let state = job;
  const checks: string[] = [];
  for (let step = 0; step < 30; step++) {
    const next = nextCheck(state);
    if (next.kind !== "check" && next.kind !== "recheck" && next.kind !== "prove-meter")
      return { state, end: next, checks };
    const check = seenInstead(state, faults, state.model.checks.get(next.check.key));
    if (!check) throw new Error(`No check ${next.check.key}`);
    checks.push(check.key);
    state = take(state, check.key, reading(check, faults, isSeen(check)));
  }
  throw new Error("The job came to no end");
}
