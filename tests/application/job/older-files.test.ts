import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { jobShow, openJob } from "ohmward/application";
import { readRecord } from "ohmward/job-records";
import { demoText } from "../../demo-harness/open-demo.ts";
import { open } from "../demo-machine.ts";

// The file was written by version 0.1 of the program on the demo machine of that version (document version 2).
const written = readFileSync(new URL("../../fixtures/version-1/job.ohmjob.json", import.meta.url), "utf8");

/** The demo machine as it was then: what wakes its control units was not in it. */
const demoMachine = open(
  demoText("firnlark-45.ohm.json").replace(/,\s*"wake": "[^"]*"(,\s*"wakeOutputs": \[[^\]]*\])?/gu, ""),
);

describe("a job file of version 1", () => {
  const read = readRecord(written);
  const record = read.ok ? read.value : undefined;

  test("opens in the words of today, with every event", () => {
    const before = JSON.parse(written) as { events: readonly object[] };
    expect(record?.events).toHaveLength(before.events.length);
    expect(record?.events).toMatchObject([
      { kind: "complaint", complaint: { conditions: { presence: "intermittent" } } },
      { kind: "code", code: "FE141", status: "active" },
      { kind: "code", code: "FE111", status: "previously-active" },
      { kind: "prior", of: "W78" },
      {
        check: { key: "terminal-drag OFF B5.X:1", kind: "terminal-drag" },
        given: { kind: "not-possible" },
        verdict: "inconclusive",
      },
      { given: { kind: "unsure" }, verdict: "inconclusive" },
      { kind: "repair" },
      { kind: "proof", check: { key: "trial codes FE141, FE111", kind: "visual-inspection" }, verdict: "pass" },
    ]);
  });

  test.each([
    [
      "Clear FE141, FE111 and run the machine under the conditions of the complaint (wet): the codes must stay away.",
      "codes FE141, FE111 (wet)",
    ],
    ["Try B3, B5 under the conditions of the complaint.", "functions B3, B5"],
    ["Move the harness at the repaired place while watching: nothing may change.", "movement"],
  ])("knows the trial that the screen named by its sentence: %s", (sentence, name) => {
    const named = written.replace(/"trial [0-9a-f]{16}"/u, JSON.stringify(`trial: ${sentence}`));
    const again = readRecord(named);
    expect(again.ok && again.value.events.at(-1)).toMatchObject({ check: { key: `trial ${name}` } });
  });

  test("goes on without a question with the machine it was opened with: its fingerprint is what it was", () => {
    const opened = record && openJob(demoMachine, record);
    expect(opened?.ok).toBe(true);
    const shown = opened?.ok === true ? jobShow(opened.value) : undefined;
    expect(shown?.job.stage).toBe("proving");
    expect(shown?.job.readings).toBe(2);
  });
});
