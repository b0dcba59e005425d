import type { SeededRandom } from "ohmward/base";
import type { Harness } from "ohmward/model";
import {
  isMeterCheck,
  nextCheck,
  startJob,
  suspects,
  takeReading,
  type Hypothesis,
  type JobState,
  type NewJob,
} from "ohmward/diagnosis";
import type { Policy } from "./policies.ts";
import { drawMachine, readCheck, type Blunders } from "./true-machine.ts";

/** How a simulated job ended. */
export interface JobEnd {
  /** `right`: the true repair named alone; `in-group`: named among a few; `wrong`: something else named; `open`: no end reached. */
  readonly kind: "right" | "in-group" | "wrong" | "open";
  readonly checks: number;
  readonly minutes: number;
  /** How many repairs were named. */
  readonly named: number;
}

/** What a job is run with. */
export interface Run {
  readonly job: NewJob;
  readonly truth: Hypothesis;
  /** Name of the true repair group; several for several faults at once, of which all must be named. */
  readonly repairs: readonly string[];
  readonly wrongShare: number;
  readonly random: SeededRandom;
  /** Chooses checks in place of the planner. */
  readonly policy?: Policy;
}

const MOST_CHECKS = 25;

/** Runs a job to its end. */
export function runJob(harness: Harness, run: Run): JobEnd | undefined {
  const machine = drawMachine(harness, run.truth, run.random);
  const started = startJob(harness, run.job);
  if (!started.ok) return undefined;
  let state = started.value;
  for (let checks = 0; checks < MOST_CHECKS; checks++) {
    const next = nextCheck(state);
    const end = endOf(state, next, { run, checks });
    if (end) return end;
    const key = keyOf(state, next, run);
    const check = state.workup.checks.get(key ?? "");
    if (!check) return { kind: "open", checks, minutes: state.minutes, named: 0 };
    const others = [...state.workup.checks.values()].filter(isMeterCheck);
    const blunders: Blunders = { share: run.wrongShare, random: run.random, others };
    const taken = takeReading(state, {
      key: check.key,
      given: readCheck(machine, check, blunders),
      stamp: { at: "2031-01-05T08:00:00Z", writer: "s" },
    });
    if (!taken.ok) throw new Error(JSON.stringify(taken.error));
    state = taken.value;
  }
  return { kind: "open", checks: MOST_CHECKS, minutes: state.minutes, named: 0 };
}

type Next = ReturnType<typeof nextCheck>;

function keyOf(state: JobState, next: Next, { policy }: Run): string | undefined {
  if (next.kind === "recheck" || next.kind === "prove-meter") return next.check.key;
  if (next.kind !== "check") return undefined;
  return policy ? policy(state) : next.check.key;
}

function endOf(
  state: JobState,
  next: Next,
  { run, checks }: { readonly run: Run; readonly checks: number },
): JobEnd | undefined {
  const { repairs } = run;
  const facts = { checks, minutes: state.minutes };
  const isTrue = (label: string): boolean => repairs.every((repair) => label.split(" and ").includes(repair));
  switch (next.kind) {
    case "repair":
      return { ...facts, named: 1, kind: isTrue(next.suspect.label) ? "right" : "wrong" };
    case "repair-in-order": {
      const named = next.order.map(({ label }) => label);
      const isIn = named.some(isTrue);
      return { ...facts, named: named.length, kind: isIn ? (named.length === 1 ? "right" : "in-group") : "wrong" };
    }
    case "look-wider":
    case "nothing-to-go-on":
      return { ...facts, named: 0, kind: "open" };
    case "check":
    case "recheck":
    case "prove-meter":
      return undefined;
  }
}

/** Names of the most likely suspects, for a look at a job that ended wrong. */
export function topSuspects(state: JobState): string {
  return suspects(state)
    .slice(0, 4)
    .map(({ label, share }) => `${label} ${share.toFixed(3)}`)
    .join("; ");
}
