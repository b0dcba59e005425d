import { err, ok, type Result } from "ohmward/base";
import {
  appendEvent,
  mergeRecords,
  readRecord,
  saveJoined,
  writeRecord,
  type JobRecord,
  type JobStore,
  type StoreFault,
} from "ohmward/job-records";
import { describe, expect, test } from "vitest";
import { sampleEvents, sampleJob } from "./sample-job.ts";

const note = (record: JobRecord, text: string, writer: string, minute: number): JobRecord =>
  appendEvent(record, { kind: "note", text }, { at: `2031-01-05T10:${String(minute).padStart(2, "0")}:00Z`, writer });

const notes = (record: JobRecord): readonly string[] =>
  record.events.flatMap((event) => (event.kind === "note" ? [event.text] : []));

describe("joinRecords()", () => {
  const base = sampleJob(sampleEvents.slice(0, 3));
  const mine = note(note(base, "m1", "a", 1), "m2", "a", 5);
  const theirs = note(note(base, "t1", "b", 3), "t2", "b", 9);

  test("keeps what both wrote, by time, and is one record again", () => {
    const joined = mergeRecords(mine, theirs);
    expect(notes(joined)).toEqual(["m1", "t1", "m2", "t2"]);
    expect(readRecord(writeRecord(joined)).ok).toBe(true);
    expect(new Set(notes(mergeRecords(theirs, mine)))).toEqual(new Set(notes(joined)));
    expect(notes(mergeRecords(joined, theirs))).toEqual(notes(joined));
  });

  test("a copy that only goes on from the other is taken as it is", () => {
    expect(mergeRecords(base, mine)).toEqual(mine);
    expect(mergeRecords(mine, base)).toEqual(mine);
  });

  test("an undo stays behind what it undoes although the clocks differ", () => {
    const late = note(base, "late", "b", 50);
    const undone = appendEvent(
      late,
      { kind: "undo", of: late.events.at(-1)?.id ?? "" },
      { at: "2031-01-05T09:00:00Z", writer: "b" },
    );
    expect(readRecord(writeRecord(mergeRecords(mine, undone))).ok).toBe(true);
  });

  test("refuses two jobs", () => {
    expect(() => mergeRecords(mine, { ...theirs, id: "J-2" })).toThrow(RangeError);
  });
});

describe("saveJoined()", () => {
  /** A store in memory, as two windows would see it. */
  function makeStore(): JobStore & { readonly texts: Map<string, string> } {
    const texts = new Map<string, string>();
    const load = (id: string): Result<JobRecord, StoreFault> => {
      const read = readRecord(texts.get(id) ?? "");
      return read.ok ? ok(read.value) : err({ kind: "missing", id });
    };
    return {
      texts,
      list: () => Promise.resolve([]),
      load: (id) => Promise.resolve(load(id)),
      remove: () => Promise.resolve(ok(undefined)),
      save: (record, eventCount) => {
        const before = load(record.id);
        if (before.ok && before.value.events.length !== eventCount) {
          return Promise.resolve(err({ kind: "changed-elsewhere", stored: before.value }));
        }
        texts.set(record.id, writeRecord(record));
        return Promise.resolve(ok(record));
      },
    };
  }

  test("two windows lose nothing", async () => {
    const store = makeStore();
    const base = sampleJob(sampleEvents.slice(0, 3));
    await saveJoined(store, base, 0, mergeRecords);
    await saveJoined(store, note(base, "one", "a", 1), 3, mergeRecords);
    const second = await saveJoined(store, note(base, "two", "b", 2), 3, mergeRecords);
    expect(second.ok && notes(second.value)).toEqual(["one", "two"]);
    const stored = await store.load("J-1");
    expect(stored).toEqual(second);
  });

  test("passes on why it could not write", async () => {
    const store: JobStore = {
      ...makeStore(),
      save: () => Promise.resolve(err({ kind: "cannot-write", reason: "full" })),
    };
    expect(await saveJoined(store, sampleJob(), 0, mergeRecords)).toEqual(
      err({ kind: "cannot-write", reason: "full" }),
    );
  });
});
