import { z } from "zod";
import { err, ok, type Result } from "../../base/index.ts";
import { drillsOfCode, makeExercise, openTaskList, readTaskCode, titleOf } from "../../training/index.ts";
import type { TrainingTask, TaskList } from "../../job-records/index.ts";
import type { Frozen } from "../frozen.ts";
import { FileProblem } from "../import/file-problem.ts";
import type { Machine } from "../open-machine.ts";
import { trainingFileProblem, taskProblem } from "./training-problem.ts";

/** An exercise of a list. */
const ListedTask = z.object({
  title: z.string().describe("Title of the exercise"),
  sort: z.enum(["drills", "exercise"]).optional().describe("Absent where the code cannot be read"),
  code: z.string().optional().describe("Absent for a fault that a trainer wrote"),
  build: z.string().optional().describe("Id of the variant (build)"),
  level: z.number().optional().describe("Level, 1 (easy) to 3 (hard)"),
  answers: z
    .array(z.string())
    .optional()
    .describe("Questions with what is right, or what is hidden with its complaint; there only if it was asked for"),
});

/** The content of an exercise list, and what is wrong with it. */
export const TasksReport = z.object({
  kind: z.literal("practice-tasks").describe("Sort of answer"),
  file: z.string().describe("Name of the file"),
  list: z
    .object({
      title: z.string().describe("Title of the list"),
      machine: z.string().describe("Name of the machine"),
      harnessCheck: z.string().describe("Fingerprint of the harness data"),
      asksHypothesis: z.boolean().describe("Whether a stated cause is asked for before each action"),
      isIntact: z.boolean().describe("False where somebody edited the file after it was written"),
      isSameHarness: z.boolean().describe("False where it was made with other harness data than the open ones"),
      tasks: z.array(ListedTask).describe("The exercises"),
    })
    .optional()
    .describe("Absent where the file is no task list that can be read, or was not made"),
  problems: z.array(FileProblem).describe("Everything that is wrong, all at once"),
  written: z.string().optional().describe("Where it was written; absent where it was not"),
});

export type TasksReport = Frozen<z.infer<typeof TasksReport>>;
/** An exercise of a list as it is reported. */
export type ListedTask = Frozen<z.infer<typeof ListedTask>>;

/**
 * Reports on the text of an exercise list: all of it, with what is wrong beside it.
 *
 * @param machine The machine available.
 * @param file Name and text of the file.
 * @param withAnswers Whether the answers are reported, for the trainer.
 */
export function tasksReport(
  machine: Machine,
  file: { readonly name: string; readonly text: string },
  withAnswers = false,
): TasksReport {
  const opened = openTaskList(machine.document, file.text);
  if (!opened.ok)
    return {
      kind: "practice-tasks",
      file: file.name,
      problems: opened.error.map((problem) => trainingFileProblem(file.name, problem)),
    };
  const { list, isIntact, isSameHarness, problems } = opened.value;
  return {
    kind: "practice-tasks",
    file: file.name,
    list: { ...partsOf(machine, list, withAnswers), isIntact, isSameHarness },
    problems: [
      ...(isIntact ? [] : [edited(file.name)]),
      ...(isSameHarness ? [] : [otherHarness(file.name, list)]),
      ...problems.map(({ at, message }) => taskProblem({ file: file.name, path: `tasks[${at}]` }, message)),
    ],
  };
}

/** A report on a task list that was made just now, so that nothing can be wrong with it. */
export function madeTasksReport(machine: Machine, list: TaskList, written: string): TasksReport {
  const whole = { ...partsOf(machine, list, false), isIntact: true, isSameHarness: true };
  return { kind: "practice-tasks", file: written, list: whole, problems: [], written };
}

function partsOf(
  machine: Machine,
  { title, asksHypothesis, tasks, machine: made }: TaskList,
  withAnswers: boolean,
): Omit<NonNullable<TasksReport["list"]>, "isIntact" | "isSameHarness"> {
  return {
    title,
    machine: made.machine,
    harnessCheck: made.harnessCheck,
    asksHypothesis,
    tasks: tasks.map((task) => ({
      ...listed(machine, task),
      ...(withAnswers ? { answers: answersOf(machine, task) } : {}),
    })),
  };
}

function listed({ document }: Machine, task: TrainingTask): ListedTask {
  const title = titleOf(task);
  if (task.kind === "written") return { title, sort: "exercise", build: task.build, level: task.level };
  const read = readTaskCode(document, task.code);
  if (!read.ok) return { title, code: task.code };
  const { topic, build, level } = read.value;
  return { title, sort: topic === "exercise" ? "exercise" : "drills", code: task.code, build, level };
}

function answersOf(machine: Machine, task: TrainingTask): readonly string[] {
  const content = taskContent(machine, task);
  if (!content.ok) return [];
  const { sort, told, answers } = content.value;
  return sort === "exercise"
    ? [`Inserted fault: ${answers.join(" ")}.`, ...told]
    : told.map((question, at) => `${question} Right: ${answers[at] ?? ""}`);
}

/** A task as its trainer sees it: what the trainee is told, and what is right. */
export interface TaskContent {
  readonly sort: "drills" | "exercise";
  readonly build: string;
  readonly level: 1 | 2 | 3;
  /** The questions of drills, or the complaint of a fault-finding exercise. */
  readonly told: readonly string[];
  /** One answer for each question; the inserted fault and its repair. */
  readonly answers: readonly string[];
}

/**
 * What a task tells the trainee, and what is right.
 *
 * @param machine The machine available.
 * @param task The task.
 * @returns The content; why it cannot be made of this machine.
 */
export function taskContent(
  { document }: Machine,
  task: TrainingTask,
): Result<TaskContent, { readonly message: string }> {
  const code = task.kind === "code" ? readTaskCode(document, task.code) : undefined;
  if (code?.ok === false) return code;
  if (task.kind === "code" && code?.ok === true && code.value.topic !== "exercise") {
    const set = drillsOfCode(document, task.code);
    if (!set.ok) return set;
    const { drills, task: drawn } = set.value;
    if (drills.length === 0) return err({ message: "This machine has no drills of this kind" });
    const told = drills.map(({ question }) => question);
    const answers = drills.map(({ accepted }) => accepted.map((each) => each.join(", ")).join("; or "));
    return ok({ sort: "drills", build: drawn.build, level: drawn.level, told, answers });
  }
  const exercise = makeExercise(document, task);
  if (!exercise.ok) return exercise;
  const { build, level, complaint, hidden } = exercise.value.task;
  const { label, repair } = hidden.candidate;
  return ok({ sort: "exercise", build, level, told: complaint, answers: [`${label}. Repair: ${repair}`] });
}

function edited(file: string): FileProblem {
  const message = "The checksum does not fit: the list was edited after it was written";
  const hint = "Generate the list again, so that all trainees get the same list";
  return { severity: "warning", code: "edited", at: { file }, message, hint };
}

function otherHarness(file: string, { machine }: TaskList): FileProblem {
  const message = `The list was made with other harness data (${machine.title}, fingerprint ${machine.harnessCheck})`;
  const hint = "Open the harness document of the list, or generate the list again";
  return { severity: "error", code: "other-harness", at: { file }, message, hint };
}
