import { readFileSync, writeFileSync } from "node:fs";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { JobRefusal } from "ohmward/application";
import { readRecord } from "ohmward/job-records";
import { demoText } from "../demo-harness/open-demo.ts";
import { run } from "./fake-io.ts";
import { job, jobFolder, jobNext } from "./job-bench.ts";

const folder = jobFolder();
afterAll(folder.remove);
const file = folder.path("begun.ohmjob.json");
let begun = "";
/** Code of a check with a voltmeter. */
let volts = "";
const VOLTS = "the code of a check with a voltmeter";

beforeAll(async () => {
  await jobNext(["new", "demo", "-j", file, "-b", "base", "--complaint", "Limp mode", "-c", "FE161"]);
  begun = readFileSync(file, "utf8");
  const { answer } = await job(["next", file, "--all"]);
  const { checks } = answer as { checks: readonly { code: string; key: string }[] };
  volts = checks.find(({ key }) => key.startsWith("dc-voltage KOEO"))?.code ?? "";
}, 60_000);
beforeEach(() => writeFileSync(file, begun));

/** A refusal of a command; the file of the job must be left as it was. */
async function refused(args: readonly string[], files: Readonly<Record<string, string>> = {}): Promise<JobRefusal> {
  const { answer, code, err } = await job(args, { files });
  expect(code).toBe(2);
  expect(err).not.toBe("");
  expect(readFileSync(file, "utf8")).toBe(begun);
  return JobRefusal.parse(answer);
}

describe("job new", { timeout: 60_000 }, () => {
  test("names everything that is wrong at once, and makes no file", async () => {
    const target = folder.path("wrong.ohmjob.json");
    const wrong = ["-c", "FE999", "-c", "SPN 1 FMI 3", "-c", "SPN 520301 FMI 5", "--fails", "B33", "--works", "SG04"];
    const more = [
      "--adapter",
      "TL-9",
      "--probability-factor",
      "W78",
      "--probability-factor",
      "W78=3",
      "--probability-factor",
      "W78=5000: why",
      "--recent-work",
      "x = W999",
    ];
    const both = ["--condition", "cold", "--condition", "hot", "--since", "s".repeat(700)];
    const refusal = await refused(["new", "demo", "-j", target, "-b", "base", ...wrong, ...more, ...both]);
    expect(refusal.problems.map(({ at }) => at)).toEqual([
      "--since",
      "--condition",
      "--recent-work",
      ...["--code", "--code", "--code"],
      "--fails",
      "--adapter",
      ...["--probability-factor", "--probability-factor", "--probability-factor"],
    ]);
    expect(refusal.problems.every(({ message, hint }) => message !== "" && hint !== "")).toBe(true);
    expect((await job(["next", target])).code).toBe(2);
  });

  test.each([
    ["neither code nor function", ["--complaint", "x"], "--code, --fails", "no circuit is known"],
    [
      "good and bad at once",
      ["--complaint", "x", "--fails", "B3", "--works", "b3"],
      "--works",
      "working and as failing",
    ],
    ["a number of a DTC that fits several", ["--complaint", "x", "-c", "520301"], "--code", "no DTC"],
    ["a part of another build", ["--complaint", "x", "--fails", "Y9"], "--fails", "not fitted"],
    [
      "a weight for nothing there",
      ["--complaint", "x", "-c", "FE161", "--probability-factor", "W999=2: why"],
      "--probability-factor",
      "W999",
    ],
    ["an adapter that is not there", ["--complaint", "x", "-c", "FE161", "-a", "none"], "--adapter", "none"],
  ])("refuses %s", async (_, args, at, words) => {
    const refusal = await refused(["new", "demo", "-j", folder.path("no.ohmjob.json"), "-b", "base", ...args]);
    expect(refusal.problems.map((problem) => problem.at)).toContain(at);
    expect(JSON.stringify(refusal.problems)).toContain(words);
  });

  test("leaves a job alone that is there, and any other file", async () => {
    expect(await refused(["new", "demo", "-j", file, "--complaint", "x", "-c", "FE161"])).toMatchObject({
      reason: "exists",
    });
    const other = folder.path("notes.json");
    writeFileSync(other, "{}");
    expect(await refused(["new", "demo", "-j", other, "--complaint", "x", "-c", "FE161"])).toMatchObject({
      reason: "unreadable",
    });
    expect(readFileSync(other, "utf8")).toBe("{}");
  });

  test.each([
    [["new", "demo"], "--job"],
    [["new", "demo", "-j", "x", "--occurrence", "often"], "often"],
    [["new", "demo", "-j", "x", "--condition", "windy"], "--condition"],
    [["new", "gone.ohm.json", "-j", folder.path("g.json"), "--complaint", "x"], "gone.ohm.json"],
    [["new", "demo", "-j", "demo", "--complaint", "x"], "--job"],
    [["close", file], "--outcome"],
    [["verify", file, "one", "works"], "number of the verification"],
    [["repair", file, "x", "--minutes", "soon"], "minutes"],
    [["record", file], "value"],
    [["frobnicate", file], "frobnicate"],
  ])("job %j is told to be wrong", async (args, words) => {
    const { code, err, out } = await run(["job", ...args]);
    expect([code, out]).toEqual([2, ""]);
    expect(err).toContain(words);
    expect(readFileSync(file, "utf8")).toBe(begun);
  });

  test("asks for the build of a machine that has several without options, and for none where it can assume one", async () => {
    const { code, answer } = await job([
      "new",
      "demo",
      "-j",
      folder.path("b.json"),
      "-b",
      "winter",
      "--complaint",
      "x",
      "-c",
      "FE161",
    ]);
    expect([code, answer]).toMatchObject([2, { kind: "choose-build" }]);
    const assumed = folder.path("assumed.ohmjob.json");
    await jobNext(["new", "demo", "-j", assumed, "--complaint", "x", "-c", "FE161"]);
    const record = readRecord(readFileSync(assumed, "utf8"));
    const last = record.ok ? record.value.events.at(-1) : undefined;
    expect(last?.kind === "note" && last.text).toContain('Assumed: "base"');
  });
});

describe("a reading that can be taken in more than one way", { timeout: 60_000 }, () => {
  test("ends with 2 and says how to write each; each is then taken", async () => {
    const refusal = await refused(["record", file, "--check", volts, "12", "MV"]);
    const [problem] = refusal.problems;
    expect(problem?.message).toBe('"12 MV" can mean 12 mV or 12 V: m is milli and M is mega. Write "12 mV" or "12 V".');
    const taken = await jobNext(["record", file, "--check", volts, "12", "mV", "--meter-proven"]);
    expect(taken.written?.text).toContain("12 mV (meter proven)");
  });

  test("a voltage of a machine and minutes are asked about as well", async () => {
    const { code, err } = await run(["job", "repair", file, "x", "--minutes", "1,200"]);
    expect([code, err]).toEqual([2, expect.stringContaining('Write "1.2 min" or "1200 min"')]);
  });
});

describe("steps of a job", { timeout: 60_000 }, () => {
  test.each([
    ["a word that is no reading", ["record", file, "--check", VOLTS, "plenty"], "wrong-input"],
    ["another unit", ["record", file, "--check", VOLTS, "12", "A"], "wrong-input"],
    ["an expected number nobody measured", ["record", file, "--check", VOLTS, "pass"], "wrong-input"],
    ["megavolts", ["record", file, "--check", VOLTS, "12", "MV"], "wrong-input"],
    ["alternating current", ["record", file, "--check", VOLTS, "12.4", "VAC"], "wrong-input"],
    ["a doubtful word", ["record", file, "--check", VOLTS, "unstable", "--uncertain"], "wrong-input"],
    ["a proven meter without a number", ["record", file, "--check", VOLTS, "unsure", "--meter-proven"], "wrong-input"],
    ["a check that is not there", ["record", file, "--check", "zzzz", "12", "V"], "wrong-input"],
    ["a key of no check", ["record", file, "--check", "volts KOEO tip@nowhere tip@G2-", "12", "V"], "wrong-input"],
    ["an event that is not there", ["undo", file, "99"], "wrong-input"],
    ["nothing to take back", ["undo", file], "out-of-turn"],
    ["a correction of what is no reading", ["correct", file, "1", "12", "V"], "wrong-input"],
    ["a proof before a repair", ["verify", file, "1", "works"], "out-of-turn"],
    ["closing as mended without a repair", ["close", file, "--outcome", "repaired"], "out-of-turn"],
    ["a repair of something that is no suspect", ["repair", file, "done", "--cause-item", "the moon"], "wrong-input"],
    ["a repair without words", ["repair", file, " "], "wrong-input"],
    ["nothing to add", ["add", file], "wrong-input"],
    ["a code that is not there", ["add", file, "-c", "FE999"], "wrong-input"],
    ["the data it has", ["update-data", file], "out-of-turn"],
    ["a reason without end", ["skip", file, "x".repeat(700)], "wrong-input"],
  ])("refuses %s and leaves the file alone", async (_, args, reason) => {
    expect(await refused(args.map((arg) => (arg === VOLTS ? volts : arg)))).toMatchObject({
      kind: "job-refused",
      reason,
    });
  });

  test.each<readonly string[]>([
    ["-0.02", "V"],
    ["-0,02", "V"],
    ["12.4"],
    ["350", "mV"],
    ["overload", "--meter-proven"],
    ["OL", "--meter-proven"],
    ["unstable"],
    ["unsure"],
    ["5.0", "V", "--uncertain"],
    ["5.0", "V", "?"],
  ])(
    "takes %s %s %s as a reading",
    async (...words) => {
      const next = await jobNext(["record", file, "--check", volts, ...words]);
      expect(next.written?.events).toHaveLength(1);
    },
    60_000,
  );

  test.each([
    ["no file", undefined],
    ["half a record", () => begun.slice(0, 300)],
    [
      "a record whose events lead nowhere",
      () => begun.replace('"events": [', '"events": [{"id":"0","at":"","kind":"undo","of":"9"},'),
    ],
    ["an event of no sort", () => begun.replace('"kind": "code"', '"kind": "codes"')],
  ])("tells of %s", async (name, text) => {
    const broken = folder.path(`${name.replaceAll(" ", "-")}.json`);
    if (text) writeFileSync(broken, text());
    expect(await refused(["next", broken])).toMatchObject({ reason: "unreadable" });
    if (text) expect(readFileSync(broken, "utf8")).toBe(text());
  });
});

describe("the machine of a job", { timeout: 60_000 }, () => {
  const changed = demoText("firnlark-45.ohm.json").replace('"revision": "1"', '"revision": "2"');
  const path = (name: string): string => folder.path(name);

  test("is found beside the job by its fingerprint, and is asked for where it is not found", async () => {
    const target = path("beside.ohmjob.json");
    writeFileSync(path("b.ohm.json"), changed);
    await jobNext(["new", path("b.ohm.json"), "-j", target, "-b", "base", "--complaint", "x", "-c", "FE231"]);
    // The machine that comes with the program is of the same name but other data.
    expect((await jobNext(["next", target])).suggestion.kind).toBe("check");
    const text = readFileSync(target, "utf8");
    const elsewhere = path("other.ohmjob.json");
    writeFileSync(elsewhere, text.replaceAll("Tarnwick Firnlark 45 snow groomer (invented)", "Some other machine"));
    const refusal = await refused(["next", elsewhere]);
    expect(refusal).toMatchObject({ reason: "no-machine", problems: [{ at: "--machine" }] });
    expect(await refused(["next", elsewhere, "-m", "demo"])).toMatchObject({ reason: "other-machine" });
    expect((await job(["next", target, "-m", "gone.ohm.json"])).answer).toMatchObject({ code: "file-unreadable" });
  }, 60_000);

  test("is refused when its data changed, until somebody chooses", async () => {
    const target = path("changed.ohmjob.json");
    await jobNext(["new", "demo", "-j", target, "-b", "base", "--complaint", "x", "-c", "FE231"]);
    await jobNext(["skip", target]);
    const before = readFileSync(target, "utf8");
    // A wire that a reading of the job needs is no longer there.
    const files = { "new.ohm.json": changed };
    const refusal = await refused(["next", target, "-m", "new.ohm.json"], files);
    expect(refusal.reason).toBe("changed-data");
    expect(refusal.problems[0]?.hint).toContain("ohmward job update-data");
    await refused(["record", target, "-m", "new.ohm.json", "12", "V"], files);
    expect(readFileSync(target, "utf8")).toBe(before);

    const adopted = await jobNext(["update-data", target, "-m", "new.ohm.json"], { files });
    expect(adopted.written?.text).toContain("Every reading still counts");
    expect((await jobNext(["next", target, "-m", "new.ohm.json"], { files })).job.readings).toBe(1);
    const record = readRecord(readFileSync(target, "utf8"));
    expect(record.ok && record.value.machine.revision).toBe("2");
    // Now it is the old data that is refused.
    expect(await refused(["next", target, "-m", "demo"])).toMatchObject({ reason: "changed-data" });
  }, 60_000);

  test("two programs that take readings at the same time lose none", async () => {
    const target = path("two.ohmjob.json");
    await jobNext(["new", "demo", "-j", target, "-b", "base", "--complaint", "x", "-c", "FE231"]);
    const answers = await Promise.all([jobNext(["skip", target, "one"]), jobNext(["add", target, "--note", "two"])]);
    const record = readRecord(readFileSync(target, "utf8"));
    if (!record.ok) throw new Error("unreadable");
    const kinds = record.value.events.slice(2).map(({ kind }) => kind);
    expect(kinds.toSorted()).toEqual(["note", "reading"]);
    for (const { written } of answers)
      for (const id of written?.events ?? []) expect(record.value.events.map((each) => each.id)).toContain(id);
  }, 60_000);
});
