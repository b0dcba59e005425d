import { drillsOfCode, newResult } from "ohmward/training";
import { readTaskList, type TrainingTask, type TrainingWork } from "ohmward/job-records";
import { ClassReport, GradesReport, TasksReport } from "ohmward/application";
import { describe, expect, test } from "vitest";
import { openDemo } from "../demo-harness/open-demo.ts";
import { run, type World } from "./fake-io.ts";

const document = openDemo();

/** The words of a command line. */
function words(line: string): readonly string[] {
  return line.split(" ");
}

function textOf(bytes: Uint8Array | undefined): string {
  return new TextDecoder().decode(bytes);
}

const made = await run(words("training new demo --drills 2 --kind cavity --title Monday -o list.json"));
const list = textOf(made.written.get("list.json"));
const read = readTaskList(list);
const tasks: readonly TrainingTask[] = read.ok ? read.value.content.tasks : [];

function work(task: TrainingTask | undefined, right: number): TrainingWork {
  if (task?.kind !== "code") throw new Error("There is no such task");
  const set = drillsOfCode(document, task.code);
  if (!set.ok) throw new Error(set.error.message);
  const answers = set.value.drills.map((drill, at) => ({
    drill: drill.id,
    picked: at < right ? [...(drill.accepted[0] ?? [])] : ["none"],
  }));
  return { kind: "drills", task, answers, points: 10 * right };
}

const kim = newResult(document, "Kim", [work(tasks[0], 7), work(tasks[1], 10)]);
const sam = newResult(document, "=1+1", [work(tasks[0], 4)]);
const files = {
  "list.json": list,
  "kim.json": kim,
  "sam.json": sam,
  "edited.json": kim.replace('"points": 70', '"points": 100'),
  "foreign.json": kim.replace(/"harnessCheck": "\w+"/u, '"harnessCheck": "0123456789abcdef"'),
  "cut.json": kim.slice(0, 100),
  "bytes.json": Uint8Array.of(0xff, 0xfe, 0xfd),
  "written.csv": "Title;Fault;Complaint\nStart;resistance:XE1:1=0.25;Cranks slowly\n",
  "wrong.csv": "Title;Fault;Level\nA;open:W999;1\nB;;7\nC;nonsense;1\n",
  "broken.csv": "Fault;Wrong\n",
};
const world: World = { files };

describe("ohmward practise new", () => {
  test("writes the same list twice, and another for another number", async () => {
    expect(made.code).toBe(0);
    expect(made.out).toMatch(/^list\.json: exercise list "Monday", 2 exercises\n/u);
    const again = await run(words("training new demo --drills 2 --kind cavity --title Monday -o list.json"));
    expect(textOf(again.written.get("list.json"))).toBe(list);
    const other = await run(words("training new demo --drills 2 --kind cavity --title Monday -o list.json -n 2"));
    expect(textOf(other.written.get("list.json"))).not.toBe(list);
  });

  test("takes hunts, and faults that the trainer wrote, with the report as data", async () => {
    const line = "training new demo --exercises 1 --level 2 -b cold -w written.csv --hypothesis --json -o a.json";
    const told = await run(words(line), world);
    const report = TasksReport.parse(JSON.parse(told.out));
    expect(report.list).toMatchObject({ asksHypothesis: true, isIntact: true });
    expect(report.list?.tasks.map(({ title, sort, level, build }) => [title, sort, level, build])).toEqual([
      ["Fault-finding exercise 1", "exercise", 2, "cold"],
      ["Start", "exercise", 2, "cold"],
    ]);
    expect(report.written).toBe("a.json");
    // Who gets the file or the report must not find the answer in what is told.
    expect(told.out).not.toContain("XE1");
  });

  test("keeps the list and the report apart on standard output", async () => {
    const told = await run(words("training new demo --drills 1 -o -"));
    expect(readTaskList(told.out).ok).toBe(true);
    expect(told.err).toMatch(/^standard output: exercise list/u);
  });

  test("tells everything that is wrong with all files at once, and writes nothing", async () => {
    const line = "training new demo -w wrong.csv -w broken.csv -w gone.csv -w written.csv -o a.json --json";
    const told = await run(words(line), world);
    const { problems, list: none } = TasksReport.parse(JSON.parse(told.out));
    expect([told.code, told.written.size, none]).toEqual([1, 0, undefined]);
    expect(problems.map(({ code, at }) => [code, at.file, at.row])).toEqual([
      ["wrong-cell", "wrong.csv", 3],
      ["wrong-cell", "wrong.csv", 3],
      ["unknown-heading", "broken.csv", 1],
      ["no-rows", "broken.csv", 1],
      ["file-unreadable", "gone.csv", undefined],
      ["no-such-task", "wrong.csv", 2],
      ["no-such-task", "wrong.csv", 4],
    ]);
  });

  test.each<[string, number, RegExp]>([
    ["training", 2, /Usage: ohmward training/u],
    ["training new demo", 2, /Choose the content of the list/u],
    ["training new demo --drills many", 2, /whole number from 0 to 200/u],
    ["training new demo --drills 201", 2, /whole number from 0 to 200/u],
    ["training new demo --exercises 1 --level 4", 2, /Give level 1, 2 or 3/u],
    ["training new demo --drills 1 --kind wires", 2, /The kinds are route, zones/u],
    ["training new demo --exercises 1 --kind route", 2, /--kind is for drills/u],
    ["training new demo --drills 1 -b winter", 2, /no build "winter"/u],
    ["training new demo --drills 1 -o - --json", 2, /Standard output can have one output only/u],
    ["training new - -w - --drills 1", 2, /Standard input can be read once only/u],
    ["training new demo -w written.csv -o written.csv", 2, /cannot be replaced/u],
    ["training new demo --drills 1 -o kim.json", 2, /it is there already/u],
    ["training new gone.json --drills 1", 2, /there is no such file/u],
  ])("%s ends with %i", async (line, code, text) => {
    const told = await run(words(line), world);
    expect([told.code, told.written.size]).toEqual([code, 0]);
    expect(told.err + told.out).toMatch(text);
  });
});

describe("ohmward practise check", () => {
  test("shows a list, and its answers only if they are asked for", async () => {
    const told = await run(words("training check demo list.json"), world);
    expect([told.code, told.err]).toEqual([0, ""]);
    expect(told.out).not.toContain("Right:");
    expect((await run(words("training check demo list.json --answers"), world)).out).toContain("Right:");
  });

  const edited = list.replace("Monday", "Tuesday");
  const other = list.replace(/"harnessCheck": "\w+"/u, '"harnessCheck": "0123456789abcdef"');
  test.each<[string, string, number, readonly string[]]>([
    ["edited", edited, 1, ["edited"]],
    ["of other harness data", other, 1, ["edited", "other-harness"]],
    ["that is cut", list.slice(0, 90), 2, ["not-json"]],
    ["that is a result", kim, 2, ["wrong-format"]],
    ["of a newer program", list.replace('"version": 2', '"version": 7'), 2, ["newer-version"]],
    ["with two faults", list.replace('"title"', '"name"').replace('"asksHypothesis"', '"asks"'), 2, ["shape"]],
  ])("of a list %s tells it", async (_, text, code, codes) => {
    const told = await run(words("training check demo bad.json --json"), { files: { "bad.json": text } });
    const report = TasksReport.parse(JSON.parse(told.out));
    expect(told.code).toBe(code);
    expect([...new Set(report.problems.map((problem) => problem.code))]).toEqual(codes);
    // Whatever can be read is kept.
    expect(report.list?.tasks.length).toBe(code === 1 ? 2 : undefined);
  });

  test("of a file that is no text, or not there, ends with 2", async () => {
    expect((await run(words("training check demo bytes.json"), world)).err).toMatch(/not UTF-8 text/u);
    expect((await run(words("training check demo gone.json"), world)).code).toBe(2);
  });
});

describe("ohmward practise grade", () => {
  test("grades each file, and ends with 0 only if nothing is to be looked into", async () => {
    const told = await run(words("training grade demo list.json kim.json sam.json --json"), world);
    const report = GradesReport.parse(JSON.parse(told.out));
    expect(told.code).toBe(0);
    expect(report.tasks).toEqual({ file: "list.json", title: "Monday" });
    expect(report.results.map(({ graded }) => graded?.work.map(({ points }) => points))).toEqual([[70, 100], [40]]);
    expect(report.results[1]?.graded?.remarks).toEqual(["Not done: Drills 2."]);
  });

  test.each<[string, readonly (number | null | undefined)[], RegExp]>([
    ["edited.json", [70, 100], /has 100 points; calculated again: 70/u],
    ["foreign.json", [null, null], /made with other harness data/u],
    ["cut.json", [], /error not-json at cut\.json/u],
    ["bytes.json", [], /error not-text at bytes\.json/u],
    ["gone.json", [], /error file-unreadable at gone\.json/u],
  ])("of %s goes on with the others and ends with 1", async (file, points, text) => {
    const data = await run(words(`training grade demo ${file} kim.json --json`), world);
    const report = GradesReport.parse(JSON.parse(data.out));
    expect(data.code).toBe(1);
    expect(report.results[0]?.graded?.work.map((each) => each.points) ?? []).toEqual(points);
    expect(report.results[1]?.graded?.work.map((each) => each.points)).toEqual([70, 100]);
    expect((await run(words(`training grade demo ${file} kim.json`), world)).out).toMatch(text);
  });

  test("shows how far it has come", async () => {
    const shown: string[] = [];
    await run(words("training grade demo kim.json sam.json"), { files, onProgress: (text) => shown.push(text) });
    expect(shown).toContain("practice: grading sam.json, 50 %");
    expect(shown.at(-1)).toBe("");
  });
});

describe("ohmward practise class", () => {
  test("puts a class together, with a guarded table for spreadsheets", async () => {
    const told = await run(words("training results demo list.json kim.json sam.json --csv class.csv --json"), world);
    const report = ClassReport.parse(JSON.parse(told.out));
    expect([told.code, report.written]).toEqual([0, "class.csv"]);
    expect(report.byTask.rows.map(({ name, points }) => [name, points])).toEqual([
      ["Kim", [70, 100]],
      ["=1+1", [40, null]],
    ]);
    const lines = textOf(told.written.get("class.csv")).trim().split("\r\n");
    expect(lines).toEqual([
      expect.stringMatching(/^\uFEFF?Name,Drills 1,Drills 2,Mean,Remarks$/u),
      "Kim,70,100,85,",
      "'=1+1,40,,40,Not done: Drills 2.",
      "Class,55,100,77.5,",
    ]);
  });

  test("gives the CSV by skill on standard output, apart from the report", async () => {
    const told = await run(words("training results demo kim.json --csv - --by skill"), world);
    expect(told.out).toMatch(/Name,Cavity and face,Mean,Remarks\r\nKim,85,85,/u);
    expect(told.err).toMatch(/^Results of the class: 1 trainee\n/u);
  });

  test.each<[string, number, RegExp]>([
    ["training results demo kim.json cut.json", 1, /error not-json at cut\.json/u],
    ["training results demo list.json list.json kim.json", 1, /There are two exercise lists/u],
    ["training results demo", 2, /missing required argument 'files'/iu],
    ["training results demo kim.json --csv kim.json", 2, /cannot be replaced/u],
    ["training results demo kim.json --csv list.json", 2, /it is there already/u],
    ["training results demo kim.json --csv - --json", 2, /Standard output can have one output only/u],
    ["training results demo kim.json --by name", 2, /Allowed choices are task, skill/u],
    ["training results - - kim.json", 2, /Standard input can be read once only/u],
  ])("%s ends with %i", async (line, code, text) => {
    const told = await run(words(line), world);
    expect([told.code, told.written.size]).toEqual([code, 0]);
    expect(told.err + told.out).toMatch(text);
  });
});
