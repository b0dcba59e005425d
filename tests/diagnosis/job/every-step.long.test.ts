import { isMeterCheck, nextCheck, resumeJob, suspects, type Check, type JobState } from "ohmward/diagnosis";
import type { Fault } from "ohmward/simulation";
import type { Harness } from "ohmward/harness-model";
import { readRecord, writeRecord } from "ohmward/job-records";
import { isContactPermitted } from "ohmward/measurement-safety";
import { describe, expect, test } from "vitest";
import { begin, demo, newJob, reading, take } from "../demo-job.ts";

/** Faults of different sorts in different circuits and builds (invented, see demo-harness/), with what is noticed. */
const jobs: readonly {
  readonly name: string;
  readonly build: string;
  readonly codes?: readonly string[];
  readonly bad?: readonly string[];
  readonly faults: readonly Fault[];
}[] = [
  { name: "return open", build: "base", codes: ["FE111", "FE141"], faults: [{ kind: "open", of: "W78" }] },
  {
    name: "bus corroded, tiller fitted",
    build: "cold-tiller",
    codes: ["FE411", "FC511"],
    faults: [{ kind: "high-resistance", of: "XC1:4", ohm: 4000 }],
  },
  {
    name: "5 V branch to ground, tiller fitted",
    build: "cold-tiller",
    codes: ["FE112", "FE122"],
    faults: [{ kind: "short", of: "W74", to: "G2-", ohm: 0.05 }],
  },
  { name: "injector plug wet", build: "base", codes: ["FE311"], faults: [{ kind: "open", of: "XP1:1" }] },
  { name: "no crank", build: "base", bad: ["M1"], faults: [{ kind: "stuck-open", of: "A3.K1-contact" }] },
];

/** Takes every suggestion until the job ends, at most ten. */
function steps(harness: Harness, job: (typeof jobs)[number]): readonly JobState[] {
  const states = [begin(newJob(job.codes ?? [], job.bad ?? []), harness)];
  for (let step = 0; step < 10; step++) {
    const state = states.at(-1);
    const next = state && nextCheck(state);
    if (!state || (next?.kind !== "check" && next?.kind !== "recheck" && next?.kind !== "prove-meter")) break;
    const check = state.model.checks.get(next.check.key);
    if (!check) throw new Error(`No check ${next.check.key}`);
    states.push(take(state, check.key, reading(check, job.faults, false, harness)));
  }
  return states;
}

describe("a job followed from step to step", () => {
  test.each(jobs)("may be killed after any step: $name", (job) => {
    const harness = demo(job.build);
    const states = steps(harness, job);
    expect(states.length).toBeGreaterThan(2);
    for (const state of states) {
      const read = readRecord(writeRecord(state.record));
      if (!read.ok) throw new Error(JSON.stringify(read.error));
      // A copy of the machine: what the killed program had worked out is gone.
      const again = resumeJob({ ...harness }, read.value);
      if (!again.ok) throw new Error(JSON.stringify(again.error));
      expect([...again.value.belief]).toEqual([...state.belief]);
      expect(suspects(again.value)).toEqual(suspects(state));
      expect(nextCheck(again.value)).toEqual(nextCheck(state));
    }
  });

  test.each(jobs)("is never sent to a forbidden contact: $name", (job) => {
    const harness = demo(job.build);
    let seen = 0;
    for (const state of steps(harness, job)) {
      const next = nextCheck(state);
      if (next.kind !== "check") continue;
      const offered = [next.check.key, ...next.others.map(({ key }) => key)];
      for (const key of offered) {
        const check = state.model.checks.get(key);
        if (!check) throw new Error(`No check ${key}`);
        expect(refusals(harness, check), key).toEqual([]);
        seen += 1;
      }
    }
    expect(seen).toBeGreaterThan(10);
  });

  test("the law finds a planted breach", () => {
    const harness = demo();
    const { model } = begin(newJob(["FE211"]), harness);
    const volts = [...model.checks.values()].filter(isMeterCheck).find(({ kind }) => kind === "dc-voltage");
    if (!volts) throw new Error("no check");
    expect(refusals(harness, { ...volts, kind: "resistance" })).not.toEqual([]);
    expect(refusals(harness, { ...volts, red: { ...volts.red, method: "back-probe" } })).not.toEqual([]);
  });
});

/** Leads of a check that the safety rules would not permit, each judged on its own. */
function refusals(harness: Harness, check: Check): readonly string[] {
  if (!isMeterCheck(check)) return [];
  const machine = harness.document.states.find(({ id }) => id === check.need.state);
  if (!machine) return [`no state ${check.need.state}`];
  return [check.red, check.black].flatMap(({ at = "", method }) => {
    const answer = isContactPermitted(harness, machine, { point: at, method, meter: check.kind });
    return answer.kind === "permitted" ? [] : [`${method} at ${at}`];
  });
}
