import {
  classBySkill,
  classByTask,
  classCsv,
  drillsOfCode,
  foldExercise,
  makeGrader,
  makeExercise,
  newResult,
  newTaskList,
  openTaskList,
  scoreExercise,
  writeTaskCode,
} from "ohmward/training";
import type { ExerciseEvent, TrainingTask, TrainingWork } from "ohmward/job-records";
import { describe, expect, test } from "vitest";
import { demoDocument } from "../support/machines.ts";

const drillCode = writeTaskCode(demoDocument, { topic: "cavity", level: 2, build: "base", number: 3 });
const drillTask: TrainingTask = { kind: "code", code: drillCode, title: "Faces" };
const exerciseTask: TrainingTask = {
  kind: "written",
  title: "Heater",
  build: "base",
  fault: "blown:FB1.FL2",
  level: 1,
};

function drillWork(right: number, points: number): TrainingWork {
  const set = drillsOfCode(demoDocument, drillCode);
  if (!set.ok) throw new Error(set.error.message);
  const answers = set.value.drills.map((drill, at) => ({
    drill: drill.id,
    picked: at < right ? [...(drill.accepted[0] ?? [])] : ["none"],
  }));
  return { kind: "drills", task: drillTask, answers, points };
}

const events: ExerciseEvent[] = [
  { kind: "name", cause: "blown FB1.FL2" },
  { kind: "repair", cause: "blown FB1.FL2" },
  { kind: "try", state: "HEAT" },
  { kind: "end" },
];

describe("task lists", () => {
  test("are written after every task was tried, and open again", () => {
    const text = newTaskList(demoDocument, { title: "Monday", asksHypothesis: true, tasks: [drillTask, exerciseTask] });
    const opened = text.ok ? openTaskList(demoDocument, text.value) : undefined;
    expect(opened?.ok && opened.value).toMatchObject({ isIntact: true, isSameHarness: true, problems: [] });
    expect(opened?.ok && opened.value.list.tasks).toEqual([drillTask, exerciseTask]);
  });

  test("say which task cannot be made", () => {
    const bad: TrainingTask = { kind: "written", title: "x", build: "base", fault: "open:W999", level: 1 };
    const list = newTaskList(demoDocument, { title: "Monday", asksHypothesis: false, tasks: [drillTask, bad] });
    expect(list.ok ? [] : list.error.map(({ at }) => at)).toEqual([1]);
  });

  test("made with other data are opened whole, and it is said", () => {
    const text = newTaskList(demoDocument, {
      title: "Monday",
      asksHypothesis: false,
      tasks: [drillTask, exerciseTask],
    });
    const other = structuredClone(demoDocument);
    other.about.revision = "2";
    const opened = text.ok ? openTaskList(other, text.value) : undefined;
    expect(opened?.ok && [opened.value.isSameHarness, opened.value.list.tasks.length]).toEqual([false, 2]);
    expect(opened?.ok && opened.value.problems).toEqual([
      { at: 0, message: expect.stringContaining("other harness data") as string },
    ]);
  });

  test.each([
    ["", "not-json"],
    ["{}", "wrong-format"],
    ['{"format": "ohmward-practice-tasks", "version": 99}', "newer-version"],
    ['{"format": "ohmward-practice-tasks", "version": 1, "tasks": 5}', "shape"],
  ])("that cannot be read give a list of problems: %s", (text, code) => {
    const opened = openTaskList(demoDocument, text);
    expect(opened.ok ? "" : opened.error[0]?.code).toBe(code);
  });
});

describe("result files", () => {
  const grader = makeGrader(demoDocument);
  const ready = makeExercise(demoDocument, exerciseTask);
  if (!ready.ok) throw new Error(ready.error.message);
  const { harness, task } = ready.value;
  const planner = grader.plannerOf(ready.value, exerciseTask);
  const total = scoreExercise(foldExercise(harness, task, events), planner).total;
  const exerciseWork: TrainingWork = {
    kind: "exercise",
    task: exerciseTask,
    asksHypothesis: false,
    events,
    points: total,
  };
  const honest = newResult(demoDocument, " Kim ", [drillWork(7, 70), exerciseWork]);

  test("are graded from what was done", () => {
    const graded = grader.grade(honest);
    expect(graded.ok && graded.value).toMatchObject({ name: "Kim", isIntact: true, isSameHarness: true, remarks: [] });
    expect(graded.ok && graded.value.work.map((work) => [work.title, work.points, work.remarks])).toEqual([
      ["Faces", 70, []],
      ["Heater", total, []],
    ]);
  });

  test("that were edited are recognised, and graded all the same", () => {
    const edited = honest.replace('"points": 70', '"points": 100');
    expect(edited).not.toBe(honest);
    const graded = grader.grade(edited);
    expect(graded.ok && graded.value.isIntact).toBe(false);
    expect(graded.ok && graded.value.work[0]?.points).toBe(70);
    expect(graded.ok && graded.value.work[0]?.remarks.join()).toContain("has 100 points");
  });

  test("whose checksum was made anew after an edit still get the points of what was done", () => {
    const forged = newResult(demoDocument, "Kim", [drillWork(7, 100), exerciseWork]);
    const graded = grader.grade(forged);
    expect(graded.ok && [graded.value.isIntact, graded.value.work[0]?.points]).toEqual([true, 70]);
  });

  test("from other harness data are kept and not graded", () => {
    const other = structuredClone(demoDocument);
    other.about.revision = "2";
    const graded = makeGrader(other).grade(honest);
    expect(graded.ok && graded.value.isSameHarness).toBe(false);
    expect(graded.ok && graded.value.work.map(({ points, claimed }) => [points, claimed])).toEqual([
      [undefined, 70],
      [undefined, total],
    ]);
  });

  test("hold nothing of a person but the name", () => {
    expect(Object.keys(JSON.parse(honest) as object)).toEqual([
      "format",
      "version",
      "name",
      "machine",
      "work",
      "check",
    ]);
    expect(honest).not.toMatch(/\d{4}-\d{2}-\d{2}T/u);
  });

  test.each(["", "[]", '{"format": "ohmward-practice-result"}', honest.slice(0, -40)])(
    "that are broken give problems %#",
    (text) => {
      const graded = grader.grade(text);
      expect(graded.ok ? [] : graded.error.length).toBeGreaterThan(0);
    },
  );

  test("become a table by task and by skill, with guarded cells in CSV", () => {
    const files = [honest, newResult(demoDocument, '=cmd|"x"', [drillWork(3, 30)])];
    const results = files.flatMap((text) => {
      const graded = grader.grade(text);
      return graded.ok ? [graded.value] : [];
    });
    const byTask = classByTask(results);
    expect(byTask.columns.map(({ id }) => id)).toEqual(["Faces", "Heater"]);
    expect(byTask.rows.map(({ points }) => points)).toEqual([
      [70, total],
      [30, undefined],
    ]);
    expect(byTask.means[0]).toBe(50);
    const bySkill = classBySkill(results);
    expect(bySkill.columns[0]).toEqual({ id: "cavity", label: "Cavity and face" });
    expect(bySkill.rows[1]?.points[0]).toBe(30);
    const csv = classCsv(byTask);
    expect(csv.split("\r\n")[0]).toBe("Name,Faces,Heater,Mean,Remarks");
    expect(csv).toContain(`"'=cmd|""x"""`);
  });
});
