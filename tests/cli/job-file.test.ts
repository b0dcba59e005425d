import { execFileSync } from "node:child_process";
import {
  mkdirSync,
  readFileSync,
  readdirSync,
  rmSync,
  symlinkSync,
  lstatSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { appendEvent, mergeRecords, readRecord, saveJoined, writeRecord, type JobRecord } from "ohmward/job-records";
import { jobFile } from "../../src/cli/job/job-file.ts";
import { realDisk, type JobDisk } from "../../src/cli/job/job-disk.ts";
import { storeOf, storeRefusal } from "../../src/cli/job/run-job.ts";
import { sampleEvents, sampleJob } from "../job-records/sample-job.ts";
import { jobFolder } from "./job-bench.ts";

const sampleRecord = sampleJob(sampleEvents.slice(0, 4));
let folder = jobFolder();
let file = "";
beforeEach(() => {
  folder = jobFolder();
  file = folder.path("a.ohmjob.json");
});
afterEach(() => folder.remove());

const note = (record: JobRecord, text: string, writer = "w"): JobRecord =>
  appendEvent(record, { kind: "note", text }, { at: "2031-02-01T08:00:00Z", writer });
const notesIn = (text: string): readonly string[] => {
  const record = readRecord(text);
  if (!record.ok) throw new Error(JSON.stringify(record.error));
  return record.value.events.flatMap((event) => (event.kind === "note" ? [event.text] : []));
};
const beside = (): readonly string[] => readdirSync(folder.path(".")).filter((name) => name !== "a.ohmjob.json");

class Crash extends Error {}

/** A disk of a program that dies at its n-th step: of a write, half the text is on the disk by then. */
function dyingDisk(dieAt: number, processId: number): JobDisk & { readonly steps: () => number } {
  const real = realDisk();
  let steps = 0;
  const step = (): void => {
    steps += 1;
    if (steps >= dieAt) throw new Crash();
  };
  return {
    ...real,
    processId,
    steps: () => steps,
    writeNew: async (path, text) => {
      steps += 1;
      if (steps > dieAt) throw new Crash();
      if (steps < dieAt) return real.writeNew(path, text);
      writeFileSync(path, text.slice(0, text.length / 2), { flag: "wx" });
      throw new Crash();
    },
    rename: async (from, to) => {
      step();
      await real.rename(from, to);
    },
    remove: async (path) => {
      step();
      await real.remove(path);
    },
    syncFolder: async (path) => {
      step();
      await real.syncFolder(path);
    },
  };
}

/** A number that no program has. */
const NOBODY = 0x7fff_fff0;

describe("jobFile()", () => {
  const left = JSON.stringify({ host: realDisk().host, processId: NOBODY - 1, token: "t" });
  test.each([
    ["no lock", undefined, 6],
    ["the lock of a program that is gone", left, 9],
    ["a lock that was half written", left.slice(0, 10), 9],
  ])(
    "keeps the record before or after with %s, wherever the program dies, and the next goes on",
    async (_, lock, least) => {
      const before = note(sampleRecord, "before");
      const after = note(before, "after");
      const outcomes = new Set<string>();
      let dieAt = 1;
      for (let isDead = true; isDead; dieAt++) {
        rmSync(folder.path("."), { recursive: true, force: true });
        mkdirSync(folder.path("."));
        writeFileSync(file, writeRecord(before));
        if (lock !== undefined) writeFileSync(`${file}.lock`, lock);
        if (lock !== undefined) utimesSync(`${file}.lock`, 0, 0);
        const disk = dyingDisk(dieAt, NOBODY);
        const saved = await jobFile(disk, file).save(after, before.events.length);
        isDead = disk.steps() >= dieAt;
        const notes = notesIn(readFileSync(file, "utf8"));
        expect([["before"], ["before", "after"]].map(String)).toContain(String(notes));
        if (saved.ok) expect(notes).toEqual(["before", "after"]);
        outcomes.add(`${notes.length} ${saved.ok ? "saved" : "dead"}`);
        // A lock that was left half written is cleared once it is old.
        for (const name of beside()) utimesSync(folder.path(name), 0, 0);
        const stored = readRecord(readFileSync(file, "utf8"));
        if (!stored.ok) throw new Error("unreadable");
        const next = await jobFile(realDisk(), file).save(note(stored.value, "next"), stored.value.events.length);
        expect(next.ok).toBe(true);
        expect(notesIn(readFileSync(file, "utf8"))).toEqual([...notes, "next"]);
        expect(beside()).toEqual([]);
      }
      // The steps of a save: lock, write, rename, wait for the disk, unlock.
      expect(dieAt).toBeGreaterThanOrEqual(least);
      expect([...outcomes].sort()).toEqual(["1 dead", "2 dead", "2 saved"]);
    },
  );

  test.each([
    ["no lock", undefined],
    ["a lock that was left", { processId: NOBODY }],
    ["a lock whose number a program has that runs", { processId: process.ppid, start: "earlier 1" }],
  ])("loses nothing of programs that write at the same time, with %s", async (_, lock) => {
    writeFileSync(file, writeRecord(sampleRecord));
    if (lock) writeFileSync(`${file}.lock`, JSON.stringify({ host: realDisk().host, token: "t", ...lock }));
    const writers = Array.from({ length: 12 }, async (_, index) => {
      const disk: JobDisk = {
        ...realDisk(),
        processId: 1000 + index,
        isRunning: (id) => id !== NOBODY,
        startOf: (id) => Promise.resolve(`boot ${id}`),
      };
      const mine = note(sampleRecord, `from ${index}`, `w${index}`);
      return saveJoined(jobFile(disk, file), mine, sampleRecord.events.length, (a, b) => mergeRecords(b, a));
    });
    const saved = await Promise.all(writers);
    expect(saved.every(({ ok }) => ok)).toBe(true);
    const notes = notesIn(readFileSync(file, "utf8"));
    const old = sampleRecord.events.filter(({ kind }) => kind === "note").length;
    expect(notes.slice(old).toSorted()).toEqual(Array.from({ length: 12 }, (_, index) => `from ${index}`).sort());
    expect(beside()).toEqual([]);
  });

  test("tells what was stored meanwhile, and leaves it", async () => {
    const theirs = note(sampleRecord, "theirs");
    writeFileSync(file, writeRecord(theirs));
    const saved = await jobFile(realDisk(), file).save(note(sampleRecord, "mine"), sampleRecord.events.length);
    expect(saved).toEqual({ ok: false, error: { kind: "changed-elsewhere", stored: theirs } });
    expect(readFileSync(file, "utf8")).toBe(writeRecord(theirs));
    // Nor does a new job take the place of one that is there.
    const begun = await jobFile(realDisk(), file).save({ ...sampleRecord, id: "other" }, 0);
    expect(begun).toMatchObject({ ok: false, error: { kind: "changed-elsewhere" } });
  });

  test("waits for a program that runs, and says who it waited for", async () => {
    writeFileSync(file, writeRecord(sampleRecord));
    const disk = { ...realDisk(), wait: () => Promise.resolve() };
    writeFileSync(`${file}.lock`, JSON.stringify({ host: disk.host, processId: process.ppid, token: "t" }));
    const saved = await jobFile(disk, file).save(note(sampleRecord, "mine"), sampleRecord.events.length);
    expect(saved).toMatchObject({ ok: false, error: { kind: "cannot-write" } });
    expect(JSON.stringify(saved)).toContain("a.ohmjob.json.lock");
    expect(readFileSync(file, "utf8")).toBe(writeRecord(sampleRecord));
    // The same lock of another computer may be of a program that runs there.
    writeFileSync(`${file}.lock`, JSON.stringify({ host: "elsewhere", processId: NOBODY, token: "t" }));
    expect((await jobFile(disk, file).save(note(sampleRecord, "mine"), sampleRecord.events.length)).ok).toBe(false);
    writeFileSync(`${file}.lock`, JSON.stringify({ host: disk.host, processId: NOBODY, token: "t" }));
    expect((await jobFile(disk, file).save(note(sampleRecord, "mine"), sampleRecord.events.length)).ok).toBe(true);
  });

  describe("a lock whose program number belongs to a program that runs", () => {
    const own = { ...realDisk(), wait: () => Promise.resolve() };
    const saveUnder = async (owner: object, disk: JobDisk = own, age = 0): Promise<boolean> => {
      writeFileSync(file, writeRecord(sampleRecord));
      writeFileSync(`${file}.lock`, JSON.stringify({ host: disk.host, token: "t", ...owner }));
      const written = Date.now() / 1000 - age;
      utimesSync(`${file}.lock`, written, written);
      return (await jobFile(disk, file).save(note(sampleRecord, "mine"), sampleRecord.events.length)).ok;
    };

    test.each([process.ppid, process.pid])("was left if the program began at another time (%i)", async (processId) => {
      const known = { ...own, startOf: () => Promise.resolve("boot 200") };
      expect(await saveUnder({ processId, start: "boot 100" }, known)).toBe(true);
      expect(await saveUnder({ processId, start: "boot 200" }, known, 9999)).toBe(false);
    });

    test("is told by its age where the computer does not tell when programs began", async () => {
      const unknown = { ...own, startOf: () => Promise.resolve(undefined) };
      expect(await saveUnder({ processId: process.ppid }, unknown, 50)).toBe(false);
      expect(await saveUnder({ processId: process.ppid }, unknown, 70)).toBe(true);
    });

    test.runIf(process.platform === "linux")("is told apart on this computer (needs /proc)", async () => {
      const start = await own.startOf(process.ppid);
      expect(start).toMatch(/^\S+ \d+$/u);
      expect(await own.startOf(process.ppid)).toBe(start);
      expect(await own.startOf(NOBODY)).toBeUndefined();
      expect(await saveUnder({ processId: process.ppid, start }, own, 9999)).toBe(false);
      expect(await saveUnder({ processId: process.ppid, start: "earlier 1" })).toBe(true);
    });
  });

  test("writes nothing once another program has taken its lock", async () => {
    writeFileSync(file, writeRecord(sampleRecord));
    const disk = realDisk();
    const slow = {
      ...disk,
      writeNew: async (path: string, text: string) => {
        const made = await disk.writeNew(path, text);
        // Stopped for long while it wrote: somebody else took the lock for one that was left.
        if (path.endsWith(".part")) writeFileSync(`${file}.lock`, "theirs");
        return made;
      },
    };
    const saved = await jobFile(slow, file).save(note(sampleRecord, "mine"), sampleRecord.events.length);
    expect(saved).toMatchObject({ ok: false, error: { kind: "cannot-write" } });
    expect(readFileSync(file, "utf8")).toBe(writeRecord(sampleRecord));
    expect([beside(), readFileSync(`${file}.lock`, "utf8")]).toEqual([["a.ohmjob.json.lock"], "theirs"]);
  });

  test("tells a newer record from a broken one", () => {
    const told = (text: string): string => {
      const record = readRecord(text);
      return record.ok ? "" : JSON.stringify(storeRefusal({ kind: "unreadable", id: "a", problems: record.error }));
    };
    expect(told('{"format": "ohmward-job", "version": 99}')).toMatch(
      /newer version of this program[^]*use a newer program/u,
    );
    expect(told('{"format": "ohmward-job", "version": 99}')).not.toMatch(/[Rr]estore|copy|repair/u);
    expect(told("{}")).toMatch(/Restore it from a copy/u);
  });

  test.each([
    ["nothing", ""],
    ["half a record", writeRecord(sampleRecord).slice(0, 400)],
    ["another file", "Wire;From;To\n"],
    ["a newer record", '{"format": "ohmward-job", "version": 99}'],
  ])("leaves a file with %s alone", async (_, text) => {
    writeFileSync(file, text);
    const store = jobFile(realDisk(), file);
    expect(await store.load("a")).toMatchObject({ ok: false, error: { kind: "unreadable" } });
    expect(await store.save(sampleRecord, 0)).toMatchObject({ ok: false, error: { kind: "unreadable" } });
    expect(readFileSync(file, "utf8")).toBe(text);
  });

  test("says why it cannot write", async () => {
    const nowhere = jobFile(realDisk(), join(folder.path("gone"), "a.ohmjob.json"));
    expect(await nowhere.save(sampleRecord, 0)).toEqual({
      ok: false,
      error: { kind: "cannot-write", reason: "there is no such folder" },
    });
    mkdirSync(file);
    expect(await jobFile(realDisk(), file).load("a")).toMatchObject({ error: { reason: "it is a folder" } });
    const long = { ...sampleRecord, id: "x".repeat(500) };
    const saved = await jobFile(realDisk(), folder.path("b.ohmjob.json")).save(long, 0);
    expect(saved).toMatchObject({ ok: false, error: { kind: "cannot-write" } });
    expect(readdirSync(folder.path("."))).toEqual(["a.ohmjob.json"]);
  });

  test.runIf(process.platform !== "win32")("leaves pipes and devices alone", async () => {
    execFileSync("mkfifo", [file]);
    symlinkSync("/dev/zero", folder.path("b.ohmjob.json"));
    for (const path of [file, folder.path("b.ohmjob.json")]) {
      const refused = { ok: false, error: { kind: "cannot-write", reason: "it is not a plain file" } };
      expect(await jobFile(realDisk(), path).load("a")).toEqual(refused);
      expect(await jobFile(realDisk(), path).save(sampleRecord, 0)).toEqual(refused);
    }
    expect(lstatSync(file).isFIFO()).toBe(true);
    writeFileSync(folder.path("real.json"), "{}");
    symlinkSync(folder.path("real.json"), folder.path("link.json"));
    expect((await realDisk().list(folder.path("."))).toSorted()).toEqual(["link.json", "real.json"]);
  });

  test("follows a link, and lists and removes the job", async () => {
    writeFileSync(folder.path("real.json"), writeRecord(sampleRecord));
    symlinkSync(folder.path("real.json"), file);
    const store = await storeOf(realDisk(), file);
    expect((await store.save(note(sampleRecord, "mine"), sampleRecord.events.length)).ok).toBe(true);
    expect(lstatSync(file).isSymbolicLink()).toBe(true);
    expect(notesIn(readFileSync(folder.path("real.json"), "utf8")).at(-1)).toBe("mine");
    expect(await store.list()).toMatchObject([{ id: sampleRecord.id }]);
    await store.remove(sampleRecord.id);
    expect(await store.load("a")).toMatchObject({ error: { kind: "missing" } });
    expect(await store.list()).toEqual([]);
  });
});
