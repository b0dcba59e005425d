import { contentHash, jobSheet, jobText, summariseJob } from "ohmward/job-records";
import { describe, expect, test } from "vitest";
import { sampleEvents, sampleJob } from "./sample-job.ts";

describe("jobText()", () => {
  // Complaint, cause, correction is the form of work orders in the trade; each check as point, condition, expected, measured, verdict.
  test("gives complaint, cause and correction with every test", () => {
    const text = jobText(sampleJob());
    expect(text).toMatch(
      /COMPLAINT\nRail pressure code, engine in limp mode\nConditions: cold; wet; always; weather: snow, -8 °C; since yesterday\n/u,
    );
    expect(text).toContain(
      "Recent work: Valve cover off (XP1, B3.X)\nDTCs: FE111 active\nSymptoms: B3 fails, B5 works\n",
    );
    expect(text).toContain(
      "1. red A1.X1:36, black A1.X1:17; Key on, engine off, breakout lead BL-A1X1 in line; dc-voltage; expected 0.4 to 0.6 V; measured 5.02 V; fail\n",
    );
    expect(text).toMatch(
      /CORRECTION\nNew terminal in B3\.X:2, lock seated; parts: socket 0\.64; 20 min\nVerification: /u,
    );
    expect(text).toMatch(/Closed: repaired\.\nNot checked: Wiggle test of the trough\n$/u);
  });

  test("says what is missing", () => {
    const text = jobText(sampleJob([]));
    for (const line of [
      "Not recorded.",
      "Not known.",
      "No tests recorded.",
      "No repair recorded.",
      "Repair not verified.",
      "The job is still open.",
    ]) {
      expect(text).toContain(`${line}\n`);
    }
  });
});

describe("jobSheet()", () => {
  test("prints what is done, then what is next with room to write, then blank rows", () => {
    const next = { point: "red B3.X:1", condition: "Key on", expected: "4.75 to 5.25 V", measured: "", verdict: "" };
    const sheet = jobSheet(sampleJob(sampleEvents.slice(0, 7)), [next], ["Park level."]);
    expect(sheet.rows).toHaveLength(14);
    expect(sheet.rows[0]).toMatchObject({ number: 1, measured: "5.02 V", verdict: "fail" });
    expect(sheet.rows[1]).toEqual({ number: 2, ...next });
    expect(sheet.rows[2]).toMatchObject({ number: 3, point: "" });
    expect(sheet.cautions).toEqual(["Park level."]);
    expect(sheet.blanks.map(({ label }) => label)).toContain("Repair verification");
  });
});

describe("summariseJob()", () => {
  test("is the line of the list", () => {
    expect(summariseJob(sampleJob())).toEqual({
      id: "J-1",
      machine: "Firnlark",
      complaint: "Rail pressure code, engine in limp mode",
      openedAt: "2031-01-05T07:30:00Z",
      eventCount: 12,
      isClosed: true,
    });
  });
});

describe("contentHash()", () => {
  test("is the same for the same text and differs for texts that differ in one character or in order", () => {
    const texts = [
      "",
      "a",
      "b",
      "ab",
      "ba",
      "W1 W2",
      "W2 W1",
      "0.5 mm²",
      "0.5 mm³",
      "a".repeat(1000),
      "a".repeat(1001),
    ];
    const hashes = texts.map(contentHash);
    expect(new Set(hashes).size).toBe(texts.length);
    expect(texts.map(contentHash)).toEqual(hashes);
    for (const hash of hashes) expect(hash).toMatch(/^[0-9a-f]{16}$/u);
  });
});
