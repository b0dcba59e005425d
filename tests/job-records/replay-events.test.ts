import fc from "fast-check";
import { appendEvent, replayEvents, readRecord, writeRecord, type JobRecord, type NewEvent } from "ohmward/job-records";
import { describe, expect, test } from "vitest";
import { sampleEvents, sampleJob, voltsAtRail } from "./sample-job.ts";

const stamp = { at: "2031-01-05T09:00:00Z", writer: "a" };

describe("foldRecord()", () => {
  test("gathers what counts", () => {
    const facts = replayEvents(sampleJob());
    expect(facts.complaint.words).toContain("Rail");
    expect([...facts.codes]).toEqual([["FE111", "active"]]);
    expect([...facts.symptoms]).toEqual([
      ["B3", "bad"],
      ["B5", "good"],
    ]);
    expect([...(facts.adapters ?? [])]).toEqual(["BL-A1X1"]);
    expect(facts.readings).toHaveLength(1);
    expect([facts.repairs.length, facts.proofs.length, facts.notes.length, facts.closed?.outcome]).toEqual([
      1,
      1,
      1,
      "repaired",
    ]);
    expect(facts.cause?.suspect).toBe("B3.X:2 open");
  });

  test("an empty record has no complaint, no adapters named and nothing else", () => {
    const facts = replayEvents({ events: [] });
    expect(facts).toMatchObject({ complaint: { words: "" }, adapters: undefined, readings: [], closed: undefined });
  });

  test("a corrected reading takes the place of the first one, and undoing the correction brings that back", () => {
    const amend: NewEvent = { kind: "amend", of: "7.a", given: { kind: "unstable" }, verdict: "inconclusive" };
    const amended = appendEvent(sampleJob(), amend, stamp);
    expect(replayEvents(amended).readings[0]).toMatchObject({
      given: { kind: "unstable" },
      verdict: "inconclusive",
      isAmended: true,
    });
    const undone = appendEvent(amended, { kind: "undo", of: "13.a" }, stamp);
    expect(replayEvents(undone).readings[0]).toMatchObject({
      given: { text: "5,02 V" },
      verdict: "fail",
      isAmended: false,
    });
  });

  test("an event that is undone is gone, and is back when the undo is undone", () => {
    const undone = appendEvent(sampleJob(), { kind: "undo", of: "7.a" }, stamp);
    expect(replayEvents(undone).readings).toEqual([]);
    expect([...replayEvents(undone).undone]).toEqual(["7.a"]);
    const back = appendEvent(undone, { kind: "undo", of: "13.a" }, stamp);
    expect(replayEvents(back).readings).toHaveLength(1);
  });
});

/** Records with any events, undone and corrected at random. */
const anyRecord: fc.Arbitrary<JobRecord> = fc
  .array(
    fc.record({ pick: fc.nat({ max: sampleEvents.length - 1 }), of: fc.nat({ max: 30 }), how: fc.nat({ max: 3 }) }),
    { maxLength: 30 },
  )
  .map((steps) =>
    steps.reduce((record, { pick, of, how }) => {
      const target = record.events[of % Math.max(1, record.events.length)];
      const given = { kind: "value", text: "1 V", value: of, unit: "V" } as const;
      const reading: NewEvent = {
        kind: "reading",
        check: { ...voltsAtRail, key: `c${of}` },
        given,
        verdict: "inconclusive",
        suspects: [],
      };
      const fresh = sampleEvents[pick] ?? reading;
      if (how === 0 && target) return appendEvent(record, { kind: "undo", of: target.id }, stamp);
      if (how === 1 && target?.kind === "reading")
        return appendEvent(record, { kind: "amend", of: target.id, given, verdict: "inconclusive" }, stamp);
      return appendEvent(record, how === 2 ? reading : fresh, stamp);
    }, sampleJob([])),
  );

describe("laws of the record", () => {
  test("folding what was written and read back gives the same state", () => {
    fc.assert(
      fc.property(anyRecord, (record) => {
        const read = readRecord(writeRecord(record));
        expect(read.ok && replayEvents(read.value)).toEqual(replayEvents(record));
      }),
      { seed: 11, numRuns: 200 },
    );
  });

  test("cutting the list of events anywhere leaves what was there at that moment", () => {
    fc.assert(
      fc.property(anyRecord, fc.nat({ max: 30 }), (record, cut) => {
        const before = { ...record, events: record.events.slice(0, cut) };
        expect(readRecord(writeRecord(before)).ok).toBe(true);
        const again = record.events
          .slice(cut)
          .reduce((short, event) => ({ ...short, events: [...short.events, event] }), before);
        expect(again).toEqual(record);
      }),
      { seed: 12, numRuns: 200 },
    );
  });

  test("undoing the last event gives the state before it", () => {
    fc.assert(
      fc.property(anyRecord, (record) => {
        const next = appendEvent(record, { kind: "symptom", item: "B7", is: "bad" }, stamp);
        const id = next.events.at(-1)?.id ?? "";
        const { undone, ...after } = replayEvents(appendEvent(next, { kind: "undo", of: id }, stamp));
        const { undone: before, ...facts } = replayEvents(record);
        expect(after).toEqual(facts);
        expect(new Set([...before, id])).toEqual(undone);
      }),
      { seed: 13, numRuns: 200 },
    );
  });
});
