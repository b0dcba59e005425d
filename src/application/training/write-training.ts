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
 * Writes a report on an exercise list as plain text for people.
 *
 * @param report The report.
 * @returns The text, with a line end at its end.
 */
export function writeTasksReport({ file, list, problems, written }: TasksReport): string {
  const head = list
    ? [
        `${file}: exercise list "${list.title}", ${counted(list.tasks.length, "exercise")}`,
        `${list.machine}, fingerprint of the harness data ${list.harnessCheck}`,
        list.asksHypothesis ? "A stated cause is required before each action." : "No stated cause is required.",
        "",
        ...columns(list.tasks.map(taskCells)),
        ...list.tasks.flatMap((task, at) => section(`${at + 1} ${task.title}`, bullets(task.answers ?? []))),
      ]
    : [`${file}: not an exercise list`];
  return safeLines([
    ...head,
    ...problemLines(problems),
    ...(written === undefined ? [] : ["", `Written to ${written}`]),
  ]);
}

const SORT_NAMES: Readonly<Record<NonNullable<ListedTask["sort"]>, string>> = {
  drills: "drills",
  exercise: "fault-finding exercise",
};

function taskCells({ title, sort, code, build, level }: ListedTask, at: number): readonly string[] {
  return [
    String(at + 1),
    title,
    sort === undefined ? "" : SORT_NAMES[sort],
    level === undefined ? "" : `level ${level}`,
    build === undefined ? "" : `variant ${build}`,
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
  return tasks ? `Compared with the exercise list "${tasks.title}" (${tasks.file})` : "No exercise list was given.";
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
    `Results of the class: ${counted(byTask.rows.length, "trainee")}`,
    machine,
    listLine(tasks),
    ...section("By exercise, points of 100", tableLines(byTask)),
    ...section("By skill, in %", tableLines(bySkill)),
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
