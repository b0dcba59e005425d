import type { SeededRandom } from "ohmward/base";
import type { Harness } from "ohmward/harness-model";
import {
  isMeterCheck,
  type Check,
  nextCheck,
  repairMinutes,
  startJob,
  takeReading,
  type Hypothesis,
  type JobState,
  type NewJob,
} from "ohmward/diagnosis";
import type { Policy } from "./policies.ts";
import { drawMachine, readCheck, type Blunders } from "./true-machine.ts";

/** How a simulated job ended. */
export interface JobEnd {
  /**
   * `first`: the true repair is the one to do first or the only one named; `in-order`: it comes later in the order named; `missed`: it is
   * not in the order; `wrong`: another one was named alone, as good as certain; `open`: no end was reached.
   */
  readonly kind: "first" | "in-order" | "missed" | "wrong" | "open";
  readonly checks: number;
  /** Minutes of checks. */
  readonly minutes: number;
  /** Repairs done until the fault was mended, the right one included; 0 where it was not. */
  readonly repairs: number;
  /** Minutes of those repairs. */
  readonly repairMinutes: number;
}

/** What a job is run with. */
export interface Run {
  readonly job: NewJob;
  readonly truth: Hypothesis;
  /** Name of the true repair group; several for several faults at once, of which one must be named: the others show when it is mended. */
  readonly repairs: readonly string[];
  readonly wrongShare: number;
  readonly random: SeededRandom;
  /** Chooses checks in place of the planner. */
  readonly policy?: Policy;
}

/** More checks than anybody would do on one complaint before asking for help. */
const MOST_CHECKS = 60;

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
    const check = seenWhileOpening(state, run, state.model.checks.get(key ?? ""));
    if (!check) return { ...NOT_MENDED, checks, minutes: state.minutes };
    const others = [...state.model.checks.values()].filter(isMeterCheck);
    const blunders: Blunders = { share: run.wrongShare, random: run.random, others };
    const taken = takeReading(state, {
      key: check.key,
      given: readCheck(machine, check, blunders),
      stamp: { at: "2031-01-05T08:00:00Z", writer: "s" },
    });
    if (!taken.ok) throw new Error(JSON.stringify(taken.error));
    state = taken.value;
  }
  return { ...NOT_MENDED, checks: MOST_CHECKS, minutes: state.minutes };
}

/** Whoever goes to open a connector that is the fault by not being plugged in sees it. */
function seenWhileOpening(state: JobState, { truth }: Run, check: Check | undefined): Check | undefined {
  const [candidate] = truth.candidates;
  if (!check || candidate?.mode !== "unplugged" || !check.need.unplugged.includes(candidate.item.id)) return check;
  const looks = [...state.model.checks.values()].filter(({ kind }) => kind === "visual-inspection");
  const look = looks.find((each) => !isMeterCheck(each) && each.at.id === candidate.item.id);
  return look && !state.facts.readings.some((reading) => reading.check.key === look.key) ? look : check;
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
  const facts = { checks, minutes: state.minutes };
  switch (next.kind) {
    case "repair":
      return { ...facts, ...tried(run, [next.suspect.label], "wrong") };
    case "repair-in-order":
      return {
        ...facts,
        ...tried(
          run,
          next.order.map(({ label }) => label),
          "missed",
        ),
      };
    case "look-wider":
    case "nothing-to-go-on":
      return { ...facts, ...NOT_MENDED };
    case "check":
    case "recheck":
    case "prove-meter":
      return undefined;
  }
}

const NOT_MENDED = { kind: "open", repairs: 0, repairMinutes: 0 } as const;

/** Doing the named repairs in order until one of them mends something that is broken. */
function tried(
  { repairs }: Run,
  named: readonly string[],
  otherwise: "missed" | "wrong",
): Pick<JobEnd, "kind" | "repairs" | "repairMinutes"> {
  let minutes = 0;
  for (const [index, label] of named.entries()) {
    minutes += repairMinutes(label);
    if (label.split(" and ").some((part) => repairs.includes(part)))
      return { kind: index === 0 ? "first" : "in-order", repairs: index + 1, repairMinutes: minutes };
  }
  return { kind: otherwise, repairs: 0, repairMinutes: 0 };
}
