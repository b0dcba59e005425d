import { migrateDocument } from "ohmward/harness-model";
import { readTrainingResult, readRecord, writeRecord } from "ohmward/job-records";
import { describe, expect, test } from "vitest";
import { sampleJob } from "./sample-job.ts";

const edit = (change: (record: Record<string, unknown>) => void): string => {
  const record = JSON.parse(writeRecord(sampleJob())) as Record<string, unknown>;
  change(record);
  return JSON.stringify(record);
};

describe("readRecord()", () => {
  test("reads back what writeRecord() wrote, to the same text", () => {
    const text = writeRecord(sampleJob());
    const read = readRecord(text);
    expect(read).toEqual({ ok: true, value: sampleJob() });
    expect(read.ok && writeRecord(read.value)).toBe(text);
    expect(readRecord(`\uFEFF${text}`).ok).toBe(true);
  });

  // The place is where RFC 8259 wants a value after the colon and finds a letter.
  test("says in which line and column a text stops being JSON", () => {
    const text = '{\n  "format": ohmward\n}';
    const message = "line 2, column 13: found o, wanted a value";
    expect(readRecord(text)).toMatchObject({ error: [{ message: `The record is not JSON: ${message}` }] });
    expect(readTrainingResult(text)).toMatchObject({ error: [{ message: `The result file is not JSON: ${message}` }] });
  });

  test.each([
    ["nothing", "", "not-json", ""],
    ["half a file", writeRecord(sampleJob()).slice(0, 700), "not-json", ""],
    ["a list", "[]", "wrong-format", "format"],
    ["another format", '{"format": "x"}', "wrong-format", "format"],
    ["a newer version", edit((record) => (record["version"] = 3)), "newer-version", "version"],
    ["no version", edit((record) => delete record["version"]), "shape", "version"],
    ["an unknown key", edit((record) => (record["extra"] = 1)), "shape", ""],
    [
      "an unknown event",
      edit((record) => (record["events"] = [{ id: "1", at: "", kind: "dance" }])),
      "shape",
      "events.0.kind",
    ],
    [
      "one id twice",
      edit(
        (record) => (record["events"] = Array.from({ length: 2 }, () => ({ id: "1", at: "", kind: "note", text: "" }))),
      ),
      "repeated-event",
      "events.1",
    ],
    [
      "an undo of nothing",
      edit((record) => (record["events"] = [{ id: "1", at: "", kind: "undo", of: "7" }])),
      "leads-nowhere",
      "events.0",
    ],
    [
      "a correction of a note",
      edit(
        (record) =>
          (record["events"] = [
            { id: "1", at: "", kind: "note", text: "" },
            { id: "2", at: "", kind: "amend", of: "1", given: { kind: "unstable" }, verdict: "inconclusive" },
          ]),
      ),
      "leads-nowhere",
      "events.1",
    ],
  ])("refuses %s", (_name, text, code, path) => {
    const read = readRecord(text);
    expect(read.ok ? [] : read.error.map((problem) => [problem.code, problem.path])).toEqual([[code, path]]);
  });

  test("refuses what is far too long without reading it", () => {
    const read = readRecord(" ".repeat(32 * 1024 * 1024 + 1));
    expect(read.ok ? [] : read.error.map((problem) => problem.code)).toEqual(["too-large"]);
  });
});

describe("migrateDocument()", () => {
  test("goes step by step from where the record stands", () => {
    const steps = [
      { name: "one", from: 1, to: 2, migrate: (record: object) => ({ ...record, one: true }) },
      { name: "two", from: 2, to: 3, migrate: (record: object) => ({ ...record, two: true }) },
    ];
    expect(migrateDocument({ version: 1 }, steps)).toEqual({ version: 3, one: true, two: true });
    expect(migrateDocument({ version: 2 }, steps)).toEqual({ version: 3, two: true });
    expect(migrateDocument({ version: 3 }, steps)).toEqual({ version: 3 });
  });
});
