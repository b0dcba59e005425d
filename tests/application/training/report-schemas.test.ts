import { newResult } from "ohmward/training";
import {
  classReport,
  generatedFiles,
  gradeFiles,
  gradesReport,
  makeTasks,
  tasksReport,
  type Grading,
} from "ohmward/application";
import { expect, test } from "vitest";
import { z } from "zod";
import { demo } from "../demo-machine.ts";

const made = makeTasks(demo, {
  ...{ title: "T", asksHypothesis: true, build: "base", level: 1, first: 1, drills: 1, kinds: ["route"], exercises: 0 },
  written: [],
});
const text = made.ok ? made.value.text : "";
const [task] = made.ok ? made.value.list.tasks : [];
const result = newResult(demo.document, "Kim", task ? [{ kind: "drills", task, answers: [], points: 0 }] : []);

function graded(): Grading {
  const work = gradeFiles(demo, [
    { name: "list", text },
    { name: "kim", text: result },
    { name: "bad", text: "[" },
  ]);
  let step = work.next();
  while (step.done !== true) step = work.next();
  return step.value;
}

test.each([
  ["tasks", tasksReport(demo, { name: "list", text }, true)],
  ["tasks", tasksReport(demo, { name: "list", text: "[" })],
  ["grades", gradesReport("Machine", graded())],
  ["class", classReport("Machine", graded(), "class.csv")],
] as const)("answer-practice-%s describes a report, and not one with a key too many or too few", (name, report) => {
  const file = generatedFiles().find(({ fileName }) => fileName === `answer-practice-${name}.schema.json`);
  const schema = z.fromJSONSchema(z.record(z.string(), z.json()).parse(JSON.parse(file?.text ?? "{}")));
  expect(schema.safeParse(report).error).toBeUndefined();
  expect(schema.safeParse({ ...report, surplus: 1 }).success).toBe(false);
  expect(schema.safeParse({ ...report, problems: undefined }).success).toBe(false);
});
