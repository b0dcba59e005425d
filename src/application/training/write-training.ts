import { safeLines } from "../../base/index.ts";
import { skillLabel } from "../../training/index.ts";
import { fileProblemLines } from "../import/write-import-report.ts";
import { columns } from "../text/columns.ts";
import { bullets, counted, section } from "../text/frame.ts";
import type { ClassReport } from "./class-report.ts";
import type { GradesReport } from "./grades-report.ts";
import type { ListedTask, TasksReport } from "./tasks-report.ts";

type Problems = TasksReport["problems"];
type Graded = NonNullable<GradesReport["results"][number]["graded"]>;

/**
 * Writes a report on a task list as plain text for people.
 *
 * @param report The report.
 * @returns The text, with a line end at its end.
 */
export function writeTasksReport({ file, list, problems, written }: TasksReport): string {
  const head = list
    ? [
        `${file}: task list "${list.title}", ${counted(list.tasks.length, "task")}`,
        `${list.machine}, check of the harness data ${list.harnessCheck}`,
        list.asksHypothesis ? "A hypothesis is asked for before each action." : "No hypothesis is asked for.",
        "",
        ...columns(list.tasks.map(taskCells)),
        ...list.tasks.flatMap((task, at) => section(`${at + 1} ${task.title}`, bullets(task.answers ?? []))),
      ]
    : [`${file}: no task list`];
  return safeLines([
    ...head,
    ...problemLines(problems),
    ...(written === undefined ? [] : ["", `Written to ${written}`]),
  ]);
}

function taskCells({ title, sort, code, build, level }: ListedTask, at: number): readonly string[] {
  return [
    String(at + 1),
    title,
    sort ?? "",
    level === undefined ? "" : `level ${level}`,
    build === undefined ? "" : `build ${build}`,
    code ?? "written by the trainer",
  ];
}

/**
 * Writes graded result files as plain text for people, one after the other.
 *
 * @param report The report.
 * @returns The text, with a line end at its end.
 */
export function writeGradesReport({ machine, tasks, results, problems }: GradesReport): string {
  const graded = results.filter((result) => result.graded !== undefined).length;
  return safeLines([
    `${counted(graded, "result file")} of ${results.length} graded`,
    machine,
    listLine(tasks),
    ...results.flatMap(({ file, graded: own, problems: found }) =>
      own ? gradedLines(file, own) : ["", `${file}: not graded`, ...fileProblemLines(found)],
    ),
    ...problemLines(problems),
  ]);
}

function listLine(tasks: GradesReport["tasks"]): string {
  return tasks ? `Held against the task list "${tasks.title}" (${tasks.file})` : "No task list was given.";
}

function gradedLines(file: string, { name, work, remarks }: Graded): readonly string[] {
  const rows = work.map(({ title, points, skills, isFailed }) => [
    title,
    points === null ? "-" : points.toFixed(1),
    isFailed ? "failed" : "",
    skills.map(({ skill, points: own, of }) => `${skillLabel(skill).toLowerCase()} ${own}/${of}`).join(", "),
  ]);
  const notes = work.flatMap((each) => each.remarks.map((remark) => `${each.title}: ${remark}`));
  return ["", `${name || "(no name)"}, ${file}`, ...columns(rows), ...bullets([...remarks, ...notes])];
}

/**
 * Writes the tables of a class as plain text for people.
 *
 * @param report The report.
 * @returns The text, with a line end at its end.
 */
export function writeClassReport({ machine, tasks, byTask, bySkill, problems, written }: ClassReport): string {
  const notes = byTask.rows.flatMap(({ name, remarks }) =>
    remarks.map((remark) => `${name || "(no name)"}: ${remark}`),
  );
  return safeLines([
    `Class of ${byTask.rows.length}`,
    machine,
    listLine(tasks),
    ...section("By task, points of 100", tableLines(byTask)),
    ...section("By skill, percent", tableLines(bySkill)),
    ...section("Remarks", bullets(notes)),
    ...problemLines(problems),
    ...(written === undefined ? [] : ["", `Written to ${written}`]),
  ]);
}

function tableLines({ columns: heads, rows, means }: ClassReport["byTask"]): readonly string[] {
  if (rows.length === 0) return [];
  const cell = (points: number | null): string => (points === null ? "-" : points.toFixed(1));
  const known = means.filter((each) => each !== null);
  const mean = known.length > 0 ? known.reduce((sum, each) => sum + each, 0) / known.length : null;
  return columns([
    ["Name", ...heads.map(({ label }) => label), "Mean"],
    ...rows.map(({ name, points, mean: own }) => [name || "(no name)", ...points.map(cell), cell(own)]),
    ["Class", ...means.map(cell), cell(mean)],
  ]);
}

function problemLines(problems: Problems): readonly string[] {
  return problems.length === 0 ? [] : ["", ...fileProblemLines(problems)];
}
