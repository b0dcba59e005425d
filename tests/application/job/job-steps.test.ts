import { describe, expect, test } from "vitest";
import { z } from "zod";
import { describeCheck } from "ohmward/diagnosis";
import { readRecord, writeRecord } from "ohmward/job-records";
import {
  beginJob,
  generatedFiles,
  jobChecks,
  jobNext,
  jobRefusal,
  jobReport,
  jobShow,
  jobWeights,
  openJob,
  openMachine,
  takeStep,
  writeJobAnswer,
  type JobAnswer,
  type JobStep,
  type OpenJob,
} from "ohmward/application";
import { demoText } from "../../demo-harness/open-demo.ts";
import { demo } from "../demo-machine.ts";
import { smallMachine } from "../small-machine.ts";
import { begin, stamp, step, tryStep } from "./begin.ts";

const plain = [{ id: "plain", label: "Plain", options: [] }];

/** A job in which the rail sensor reads its full supply at the control unit: one reading out of band. */
function withReading(): OpenJob {
  const job = begin({ codes: ["FE111"], bad: ["B3"] });
  const volts = [...job.state.model.checks.keys()].find((key) => key.startsWith("dc-voltage KOEO")) ?? "";
  return step(job, { kind: "reading", value: "9.9 V", check: volts, isMeterProven: true }).job;
}

describe("beginJob()", () => {
  test("suggests nothing on a circuit that can fire, and says why", () => {
    const machine = smallMachine(plain);
    const begun = beginJob(machine, { id: "J", complaint: "lamp on the dash", bad: ["R9"] }, stamp);
    expect(begun).toMatchObject({ ok: false, error: { kind: "job-refused", reason: "forbidden" } });
    expect(begun.ok ? "" : begun.error.text).toMatch(/airbag/iu);
    // Nor does a job that began elsewhere go on there.
    const lamp = begin({ build: "plain", bad: ["E1"] }, machine);
    const added = tryStep(lamp, { kind: "add", bad: ["R9"] });
    expect(added).toMatchObject({ ok: false, error: { reason: "forbidden" } });
  });

  test("works with a machine of another sort: two wires, a fuse and a lamp", () => {
    const job = begin({ build: "plain", bad: ["E1"] }, smallMachine(plain));
    const next = jobNext(job);
    expect(next.suspects.map(({ label }) => label)).toEqual(expect.arrayContaining(["fuse F1.fuse", "part E1"]));
    expect(next.suspects.reduce((sum, { share }) => sum + share, 0)).toBeLessThanOrEqual(1 + 1e-9);
    expect(next.cautions).toContain("Everywhere.");
  });
});

describe("steps of a job", () => {
  test("a repair leads to its proofs; a proof that fails leads back to checking without the suspect", () => {
    const repaired = step(withReading(), {
      kind: "repair",
      text: "Terminal renewed",
      cause: "Spread",
      suspect: "contact B3.X:2",
    });
    const asked = jobNext(repaired.job, { written: repaired.written });
    if (asked.suggestion.kind !== "prove") throw new Error(asked.suggestion.kind);
    const trial = asked.suggestion.proofs.find(({ check }) => check === undefined);
    const failed = step(repaired.job, { kind: "proof", number: trial?.number ?? 0, value: "fails" }).job;
    expect(jobNext(failed).suggestion).toMatchObject({
      kind: "prove",
      text: expect.stringContaining("not repaired") as string,
    });
    const cleared = step(failed, { kind: "add", weights: ["contact B3.X:2=0: repaired, fault still there"] }).job;
    expect(jobNext(cleared).job.stage).toBe("checking");
    expect(jobNext(cleared).suspects.map(({ label }) => label)).not.toContain("contact B3.X:2");
    expect(jobShow(cleared).weights).toMatchObject([{ of: "contact B3.X:2", factor: 0 }]);
  });

  test("the readings of a proof are warned of as the first time they were taken", () => {
    const first = withReading();
    const { key } = first.state.facts.readings[0]?.check ?? { key: "" };
    const check = first.state.model.checks.get(key);
    const warned = jobNext(first, { ...(check && { check }) }).cautions;
    const proving = jobNext(step(first, { kind: "repair", text: "Terminal renewed" }).job);
    expect(proving.suggestion.kind).toBe("prove");
    expect(warned.length).toBeGreaterThan(1);
    expect(warned.filter((caution) => !proving.cautions.includes(caution))).toEqual([]);
  });

  test("a job that is closed without its proofs says so", () => {
    const repaired = step(withReading(), { kind: "repair", text: "Terminal renewed" }).job;
    const closed = step(repaired, { kind: "close", outcome: "repaired", notChecked: "Second harness." }).job;
    expect(jobReport(closed).text).toMatch(/Closed: repaired\.\nNot checked: Second harness\. Not verified: /u);
    expect(tryStep(closed, { kind: "skip" })).toMatchObject({ ok: false, error: { reason: "out-of-turn" } });
    const again = step(closed, { kind: "undo" }).job;
    expect(jobNext(again).job.stage).toBe("proving");
  });

  test("undo takes back step after step to the beginning, and no more", () => {
    let job = step(withReading(), { kind: "skip", reason: "no lift" }).job;
    const first = begin({ codes: ["FE111"], bad: ["B3"] });
    job = step(step(job, { kind: "undo" }).job, { kind: "undo" }).job;
    expect(jobNext(job).suspects).toEqual(jobNext(first).suspects);
    expect(tryStep(job, { kind: "undo" })).toMatchObject({ ok: false, error: { reason: "out-of-turn" } });
    // The DTC is undone only by its number.
    const without = step(job, { kind: "undo", event: "2" }).job;
    expect(without.state.facts.codes.size).toBe(0);
  });

  test("a corrected reading counts as corrected, and the first is kept", () => {
    const job = withReading();
    const event = job.state.record.events.at(-1)?.id ?? "";
    const corrected = step(job, { kind: "correct", event, value: "0.5 V" }).job;
    expect(corrected.state.facts.readings[0]).toMatchObject({ isAmended: true, given: { value: 0.5 } });
    expect(jobShow(corrected).log.at(-1)?.text).toContain("0.5 V");
    expect(writeRecord(corrected.state.record)).toContain("9.9 V");
  });

  test("changed data is told, and readings that no longer count are named", () => {
    const job = withReading();
    // The T-lead the reading was taken with is no longer in the document, nor may the plug be opened.
    const text = demoText("firnlark-45.ohm.json").replaceAll(/"permits":\s*\[[^\]]*\]/gu, '"permits": []');
    const opened = openMachine(text);
    if (!opened.ok) throw new Error("does not open");
    expect(openJob(opened.value, job.state.record)).toMatchObject({ ok: false, error: { reason: "changed-data" } });
    const adopted = takeStep(opened.value, job.state.record, { kind: "adopt" }, stamp);
    if (!adopted.ok || !adopted.value.opened.ok) throw new Error("not adopted");
    const { value: after } = adopted.value.opened;
    expect(adopted.value.written.text).toContain("1 of 1 readings no longer count");
    expect(jobShow(after).log.map(({ counts }) => counts)).toContain(false);
    expect(openJob(opened.value, adopted.value.record).ok).toBe(true);
  });

  test("each step holds in a record that is written and read", () => {
    const steps: readonly JobStep[] = [
      { kind: "skip", reason: "seized" },
      { kind: "add", codes: ["FE161=stored"], notes: ["wet"], complaint: "as told, and worse", adapters: [] },
      { kind: "repair", text: "Plug cleaned", cause: "Water", parts: ["S-1"], minutes: 20 },
      { kind: "proof", number: 1, value: "works" },
      { kind: "close", outcome: "referred" },
    ];
    let job = begin({ codes: ["FE111"] });
    for (const each of steps) {
      job = step(job, each).job;
      const read = readRecord(writeRecord(job.state.record));
      if (!read.ok) throw new Error(JSON.stringify(read.error));
      const again = openJob(demo, read.value);
      if (!again.ok) throw new Error(again.error.text);
      expect(jobNext(again.value)).toEqual(jobNext(job));
    }
    expect(jobShow(job).complaint[0]).toBe("as told, and worse");
  });
});

describe("answers about a job", () => {
  const schemas = new Map(
    generatedFiles().map(({ fileName, text }) => [
      fileName,
      z.fromJSONSchema(z.record(z.string(), z.json()).parse(JSON.parse(text))),
    ]),
  );
  const job = withReading();
  const repaired = step(job, { kind: "repair", text: "Terminal renewed", cause: "Spread" }).job;
  const answers: readonly (readonly [schema: string, answer: JobAnswer])[] = [
    ["job-next", jobNext(begin({ codes: ["FE231"] }))],
    ["job-next", jobNext(job)],
    ["job-next", jobNext(repaired)],
    ["job-next", jobNext(step(repaired, { kind: "close", outcome: "repaired" }).job)],
    ["job-checks", jobChecks(job)],
    ["job-show", jobShow(repaired)],
    ["job-weights", jobWeights(job)],
    ["job-report", jobReport(job)],
    ["job-refused", jobRefusal("wrong-input", "No.", [{ at: "a", message: "b", hint: "c" }])],
  ];

  test.each(answers)("answer-%s describes the answer to the last key, and it is plain data", (name, answer) => {
    const schema = schemas.get(`answer-${name}.schema.json`);
    expect(schema?.safeParse(answer).error).toBeUndefined();
    expect(schema?.safeParse({ ...answer, surplus: 1 }).success).toBe(false);
    expect(JSON.parse(JSON.stringify(answer))).toEqual(answer);
  });

  test.each(answers)("%s as text says all that is asked of it, without steering a terminal", (name, answer) => {
    for (const asSheet of [false, true]) {
      const text = writeJobAnswer(answer, { file: "my job.ohmjob.json", asSheet });
      expect(text).not.toMatch(/undefined|NaN|\[object|null/u);
      expect(text).not.toMatch(/[^\n\P{Cc}]/u);
      expect(text.endsWith("\n")).toBe(true);
      // Every answer that sends somebody to a machine puts its maker first.
      const isClosed = answer.kind === "job-next" && answer.suggestion.kind === "closed";
      if (name !== "job-refused" && !isClosed)
        expect(text).toContain("The maker's procedure, local rules and licensed practice");
    }
  });

  test("a test as text has cautions first, then state, location, steps, pass, fail, results and reasons", () => {
    const machine = begin({ codes: ["FE161"], adapters: [] });
    const { suggestion } = jobNext(machine);
    if (suggestion.kind !== "check") throw new Error(suggestion.kind);
    const volts = suggestion.check.leads.length > 0 ? machine : step(machine, { kind: "skip" }).job;
    const text = writeJobAnswer(jobNext(volts), { file: "my job.ohmjob.json", machine: "m.ohm.json" });
    for (const label of ["State", "Location", "1.", "2.", "Pass", "Fail", "Test code"])
      expect(text).toMatch(new RegExp(`^  ${label.replace(".", "\\.")} +\\S`, "mu"));
    for (const line of [/^Next test: /mu, /^If .+ \(.+ %\) +(?:remaining|cause): /mu, /^Why this test {2,}\S/mu])
      expect(text).toMatch(line);
    for (const heading of ["Possible causes, with their probability", "Cautions", "Record"])
      expect(text).toContain(`\n${heading}\n`);
    expect(text.indexOf("\nCautions\n")).toBeLessThan(text.indexOf("\nNext test: "));
    expect(text).toContain('ohmward job skip "my job.ohmjob.json" --machine m.ohm.json <reason>');
  });

  test("a check has the same words in the list as in full", () => {
    const { harness, model } = job.state;
    for (const { key, title, condition, unplugged } of jobChecks(job).checks.filter((_, index) => index % 9 === 0)) {
      const check = model.checks.get(key);
      expect(check && describeCheck(harness, check)).toMatchObject({ title, condition, unplugged });
    }
  });

  test("the sheet has a row with blanks for the check that is asked for, and room to write", () => {
    const { sheet } = jobReport(job);
    expect(sheet.rows.length).toBeGreaterThanOrEqual(14);
    expect(sheet.rows[0]?.measured).toBe("9.9 V (meter proven)");
    expect(sheet.rows.slice(1).every(({ measured }) => measured === "")).toBe(true);
    expect(writeJobAnswer(jobReport(job), { file: "a", asSheet: true }).split("\n").length).toBeLessThan(120);
  });
});
