import { drillsOfCode, newResult } from "ohmward/training";
import { writeTrainingResult, type ExerciseEvent, type TrainingTask, type TrainingWork } from "ohmward/job-records";
import {
  classReport,
  gradeFiles,
  gradesReport,
  isClean,
  makeTasks,
  writeClassReport,
  writeGradesReport,
  type Grading,
  type HandedIn,
} from "ohmward/application";
import { describe, expect, test } from "vitest";
import { demo } from "../demo-machine.ts";

const { document } = demo;
const exercise: TrainingTask = { kind: "written", title: "Heater", build: "base", fault: "blown:FB1.FL2", level: 1 };
const made = makeTasks(demo, {
  title: "Monday",
  asksHypothesis: false,
  build: "base",
  level: 1,
  first: 3,
  drills: 2,
  kinds: ["cavity"],
  exercises: 0,
  written: [{ task: exercise, at: {} }],
});
const list = made.ok ? made.value.text : "";
const [faces, more] = made.ok ? made.value.list.tasks : [];

function drillWork(task: TrainingTask | undefined, right: number, points = 10 * right): TrainingWork {
  if (task?.kind !== "code") throw new Error("There is no such task");
  const set = drillsOfCode(document, task.code);
  if (!set.ok) throw new Error(set.error.message);
  const answers = set.value.drills.map((drill, at) => ({
    drill: drill.id,
    picked: at < right ? [...(drill.accepted[0] ?? [])] : ["none"],
  }));
  return { kind: "drills", task, answers, points };
}

function graded(files: readonly HandedIn[]): Grading {
  const work = gradeFiles(demo, files);
  let step = work.next();
  while (step.done !== true) step = work.next();
  return step.value;
}

const kim = newResult(document, "Kim", [drillWork(faces, 7), drillWork(more, 10)]);
const foreign = writeTrainingResult({
  format: "ohmward-practice-result",
  version: 2,
  name: "Sam",
  machine: { title: "Other", machine: "Other", harnessCheck: "0123456789abcdef" },
  work: [drillWork(faces, 5)],
});

describe("gradeFiles", () => {
  test("takes the task list from among the files, and says what was not done", () => {
    const grading = graded([
      { name: "list", text: list },
      { name: "kim", text: kim },
    ]);
    expect(grading.list?.file).toBe("list");
    expect(grading.files.map(({ file, result }) => [file, result?.work.map(({ points }) => points)])).toEqual([
      ["kim", [70, 100]],
    ]);
    expect(grading.files[0]?.result?.remarks).toEqual(["Not done: Heater."]);
    expect(isClean(grading)).toBe(true);
  });

  test("keeps work that is not on the list, without counting it", () => {
    const stray = newResult(document, "Kim", [
      drillWork({ kind: "code", code: drillCode(9) }, 10),
      drillWork({ ...(faces as Extract<TrainingTask, { kind: "code" }>), title: "Renamed" }, 4),
    ]);
    const [file] = graded([
      { name: "list", text: list },
      { name: "kim", text: stray },
    ]).files;
    expect(file?.result?.work.map(({ title, points, claimed }) => [title, points, claimed])).toEqual([
      [drillCode(9), undefined, 100],
      ["Drills 1", 40, 40],
    ]);
    expect(file?.result?.work[0]?.remarks).toEqual(["Not on the exercise list: its 100 points do not count."]);
  });

  test("remarks on a hunt without hypotheses where the list asks for them", () => {
    const asking = makeTasks(demo, {
      ...{ title: "T", asksHypothesis: true, build: "base", level: 1, first: 1, drills: 0, kinds: [], exercises: 0 },
      written: [{ task: exercise, at: {} }],
    });
    const events: ExerciseEvent[] = [{ kind: "end" }];
    const result = newResult(document, "Kim", [
      { kind: "exercise", task: exercise, asksHypothesis: false, events, points: 10 },
    ]);
    const [file] = graded([
      { name: "list", text: asking.ok ? asking.value.text : "" },
      { name: "kim", text: result },
    ]).files;
    expect(file?.result?.work[0]?.remarks).toEqual(["Done without a stated cause before each action."]);
  });

  const cut = kim.slice(0, 200);
  test.each<[string, readonly HandedIn[], readonly string[]]>([
    ["a cut file", [{ name: "a", text: cut }], ["not-json"]],
    ["another file", [{ name: "a", text: "{}" }], ["wrong-format"]],
    [
      "a file of a newer program",
      [{ name: "a", text: kim.replace('"version": 2', '"version": 3') }],
      ["newer-version"],
    ],
    ["a damaged file", [{ name: "a", text: kim.replace('"answers"', '"answer"') }], ["shape"]],
  ])("grades the others beside %s", (_, bad, codes) => {
    const grading = graded([...bad, { name: "kim", text: kim }]);
    expect(grading.files[0]?.problems.map(({ code }) => code)).toEqual(expect.arrayContaining([...codes]));
    expect(grading.files[1]?.result?.work).toHaveLength(2);
    expect(isClean(grading)).toBe(false);
  });

  test.each<[string, string, number | undefined]>([
    ["edited", kim.replace('"points": 70', '"points": 90'), 70],
    ["whose checksum was made anew", newResult(document, "Kim", [drillWork(faces, 7, 90)]), 70],
    ["made with other harness data", foreign, undefined],
  ])("grades a file that was %s from what was done, and it is not clean", (_, text, points) => {
    const grading = graded([{ name: "a", text }]);
    expect(grading.files[0]?.result?.work[0]?.points).toBe(points);
    expect(isClean(grading)).toBe(false);
  });

  test("goes on without a task list that is damaged, and takes the first of two", () => {
    const broken = graded([
      { name: "list", text: list.replace('"tasks"', '"task"') },
      { name: "kim", text: kim },
    ]);
    expect([broken.list, broken.files.length]).toEqual([undefined, 1]);
    expect(broken.problems.length).toBeGreaterThan(0);
    const two = graded([
      { name: "list", text: list },
      { name: "again", text: list },
      { name: "kim", text: kim },
    ]);
    expect([two.list?.file, two.problems.map(({ code }) => code)]).toEqual(["list", ["second-list"]]);
  });
});

function drillCode(at: number): string {
  const other = makeTasks(demo, {
    ...{
      title: "T",
      asksHypothesis: false,
      build: "base",
      level: 1,
      first: 100 + at,
      drills: 1,
      kinds: [],
      exercises: 0,
    },
    written: [],
  });
  const [task] = other.ok ? other.value.list.tasks : [];
  return task?.kind === "code" ? task.code : "";
}

describe("reports on a class", () => {
  const grading = graded([
    { name: "list.json", text: list },
    { name: "kim.json", text: kim },
    { name: "sam.json", text: foreign },
    { name: "bad.json", text: "" },
  ]);

  test("have a column for each listed task, a row for each file that can be read, and problems for the rest", () => {
    const report = classReport("Machine", grading);
    expect(report.byTask.columns.map(({ label }) => label)).toEqual(["Drills 1", "Drills 2", "Heater"]);
    expect(report.byTask.rows.map(({ name, points, mean }) => [name, points, mean])).toEqual([
      ["Kim", [70, 100, null], 85],
      ["Sam", [null, null, null], null],
    ]);
    expect(report.byTask.means).toEqual([70, 100, null]);
    expect(report.bySkill.columns.map(({ id }) => id)).toEqual(["cavity"]);
    expect(report.problems.map(({ code, at }) => [code, at.file])).toEqual([["not-json", "bad.json"]]);
  });

  test("can be read by people", () => {
    expect(writeClassReport(classReport("Machine", grading))).toMatchSnapshot();
    expect(writeGradesReport(gradesReport("Machine", grading))).toMatchSnapshot();
  });
});
