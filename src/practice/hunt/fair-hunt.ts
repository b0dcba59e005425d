import {
  isMeterCheck,
  listHandChecks,
  suspects,
  verdictOf,
  type HandCheck,
  type JobState,
  type MeterCheck,
} from "../../diagnosis/index.ts";
import { readingTable, TABLE_KINDS, type ReadingTable } from "../../electrics/index.ts";
import type { GivenReading } from "../../records/index.ts";
import { eventsOfCheck } from "../score/check-events.ts";
import { REDUCE_ABOVE } from "../score/hunt-evidence.ts";
import { hypothesisOf } from "./hidden-fault.ts";
import type { HuntTask } from "./hunt-task.ts";
import { startHunt, stepHunt } from "./step-hunt.ts";

/**
 * A fault that no reading tells must be among so many of the likeliest repairs when the hunt begins: looking and moving show a fault only
 * where it is, so there must be a reason to go there. Judgement, no source; docs/methods/practice.md says how the planner does with it.
 */
const MOST_AHEAD = 10;

/** Two shares closer than this are the same: sums differ in their last digits between machines. */
const SAME_SHARE = 1.000001;

/**
 * Whether somebody who does permitted checks can find the hidden fault with a reasonable number of them: a reading tells it from the sound
 * machine; or looking, moving, pulling or exchanging shows it, and it is among the likeliest causes of the complaint.
 *
 * @param job The job that the complaint begins.
 * @param task The task.
 */
export function isFair(job: JobState, task: HuntTask): boolean {
  if (readingTells(job, task)) return true;
  return repairsAhead(job, task) < MOST_AHEAD && handTells(job, task);
}

/**
 * Whether any permitted check tells the hidden fault from the sound machine: those of the circuits the complaint leads to, and what may be
 * done by hand where the fault is.
 *
 * @param job The job that the complaint begins.
 * @param task The task.
 */
export function isTold(job: JobState, task: HuntTask): boolean {
  return readingTells(job, task) || handTells(job, task);
}

/** Repairs that are clearly more likely than that of the hidden fault when the hunt begins; all of them where it is no suspect. */
function repairsAhead(job: JobState, { hidden }: HuntTask): number {
  const list = suspects(job).filter(({ group }) => group >= 0);
  const own = list.find(({ label }) => label === hidden.candidate.repair)?.share ?? 0;
  return list.filter(({ share }) => share > own * SAME_SHARE).length;
}

/** Whether a reading of the job is not as expected with the fault. What comes and goes shows in a reading by chance only, so none tells it. */
function readingTells(job: JobState, { hidden }: HuntTask): boolean {
  if (hidden.isIntermittent) return false;
  const { harness, workup } = job;
  const standings = new Map<string, MeterCheck[]>();
  for (const check of workup.checks.values()) {
    if (!isMeterCheck(check)) continue;
    const key = [check.need.state, ...check.need.unplugged].join(" ");
    standings.set(key, [...(standings.get(key) ?? []), check]);
  }
  return [...standings.values()].some((checks) => {
    const [first] = checks;
    if (!first) return false;
    const table = readingTable(harness, {
      situation: { unplugged: first.need.unplugged },
      states: [first.need.state],
      faultSets: [[], hidden.faults],
      pairs: checks.map(({ kind, red, black }) => ({ kind, red: red.at ?? "", black: black.at ?? "" })),
      reduceAbove: REDUCE_ABOVE,
    });
    return checks.some((check, at) => {
      const [sound, faulty] = [givenIn(table, check, at), givenIn(table, check, checks.length + at)];
      if (!sound || !faulty || verdictOf(job, check, faulty) !== "not-as-expected") return false;
      // Where not even the sound machine reads as expected, the reading tells nothing.
      return verdictOf(job, check, sound) === "as-expected";
    });
  });
}

/** A cell of a table as it would be written down; undefined where there is no reading. */
function givenIn({ values, kinds }: ReadingTable, { kind }: MeterCheck, cell: number): GivenReading | undefined {
  const shown = TABLE_KINDS[kinds[cell] ?? -1];
  if (shown === "value") {
    const value = values[cell] ?? 0;
    return { kind: "value", text: String(value), value, unit: kind === "volts" ? "V" : "Ω", isMeterProven: true };
  }
  if (shown === "over-range") return { kind: "over-range", isMeterProven: true };
  return shown === "floating" || shown === "no-steady-state" ? { kind: "unsteady" } : undefined;
}

/** Whether looking, moving, pulling or exchanging where the fault is shows it in this hunt. */
function handTells({ harness, workup }: JobState, task: HuntTask): boolean {
  const own = hypothesisOf(task.hidden);
  const there = own ? listHandChecks(harness, [own]) : [];
  const listed = new Map<string, HandCheck>(there.map((check) => [check.key, check]));
  for (const check of workup.checks.values()) if (!isMeterCheck(check)) listed.set(check.key, check);
  const start = startHunt(harness, { ...task, asksHypothesis: false });
  return [...listed.values()].some((check) => {
    const seen = eventsOfCheck(start, check).reduce(stepHunt, start).steps.at(-1)?.seen;
    return seen?.kind === "outcome" && !seen.isHealthy;
  });
}
