import { expect, test } from "vitest";
import type { HarnessDocument } from "ohmward/harness-model";
import { answerGap, beginJob, jobNext, machineOf, writeJobAnswer, type JobNextAnswer } from "ohmward/application";
import { trailer } from "../gaps/trailer.ts";

const stamp = { at: "2026-11-30T08:00:00.000Z", writer: "test" };

function next(document: HarnessDocument, bad: readonly string[]): JobNextAnswer {
  const job = beginJob(machineOf(document), { id: "j1", complaint: "left indicator is dead", bad }, stamp);
  if (!job.ok) throw new Error(JSON.stringify(job.error));
  return jobNext(job.value);
}

test.each([["T11"], ["LAMP-L:1"], ["Left indicator"], ["SP-LEFT"]])(
  "a job on %s of bare wiring names the conductors of its net",
  (bad) => {
    const answer = next(trailer(), [bad]);
    const labels = answer.suspects.map(({ label }) => label);
    expect(labels).toEqual(
      expect.arrayContaining(["splice SP-LEFT", "contact LAMP-L:1", "contact PLUG:1", "wire T1", "wire T11"]),
    );
    expect(labels.filter((label) => /T2|T4|SP-RIGHT/u.test(label))).toEqual([]);
    const rest = answer.suspects.find(({ label }) => label === "something else")?.share ?? 0;
    expect(rest).toBeLessThan(0.2);
  },
);

test("says what is missing for a meter test, and which command answers it", () => {
  const answer = next(trailer(), ["T11"]);
  expect(answer.missing[0]).toBe("No meter test is permitted or can be calculated here.");
  expect(answer.missing.join()).toContain("LAMP-L, PLUG, SIDE-L: Is this connector sealed?");
  expect(writeJobAnswer(answer, { file: "job" })).toContain("Missing for a meter test");
});

test("offers meter tests once it is known where a probe may go", () => {
  let document = trailer();
  const say = (about: string, what: string, value: string): void => {
    const changed = answerGap(document, { about, what, value, by: "N", on: "2026-11-30", reason: "lamps only" });
    if (!changed.ok) throw new Error(changed.error.message);
    document = changed.value;
  };
  say("machine", "access", "5 min any");
  say("Left indicator", "net-kind", "supply");
  for (const connector of ["PLUG", "SIDE-L", "LAMP-L"]) {
    say(connector, "sealed", "no");
    say(connector, "permits", "unplug,front-probe");
    say(connector, "terminal-size", "2.8");
    say(connector, "zone", "REAR");
    say(connector, "harmless", "yes");
  }
  say("REAR", "hazards", "none");
  const answer = next(document, ["T11"]);
  expect(answer.missing).toEqual([]);
  expect(answer.suspects.length).toBeGreaterThan(5);
});
