import { writeCsv, type CellValue } from "../../import-export/index.ts";
import type { TaskList } from "../../job-records/index.ts";
import { taskKey, titleOf, type GradedResult, type GradedWork } from "./grade-result.ts";

/** One row of a class table: a trainee's result file. */
interface ClassRow {
  readonly name: string;
  /** Points 0 to 100 in each column; undefined where there is nothing. */
  readonly points: readonly (number | undefined)[];
  /** Mean over the columns that have points. */
  readonly mean: number | undefined;
  readonly remarks: readonly string[];
}

/** The results of a class, one column for each exercise or skill. */
export interface ClassTable {
  readonly columns: readonly { readonly id: string; readonly label: string }[];
  readonly rows: readonly ClassRow[];
  /** Mean of each column over the rows that have points. */
  readonly means: readonly (number | undefined)[];
}

/** Skills in the order they are shown, in words. */
const SKILLS: ReadonlyMap<string, string> = new Map([
  ["route", "Route of a wire"],
  ["zones", "Zones on the route"],
  ["hazards", "Hazards on the route"],
  ["next-connector", "Next connector"],
  ["cavity", "Cavity and face"],
  ["common", "Common wiring"],
  ["effect", "Effect of an open circuit"],
  ["colour", "Colour after a contact or splice"],
  ["splice", "Location of a splice"],
  ["cause", "Cause"],
  ["parts", "No good part replaced"],
  ["order", "Order of tests"],
  ["proof", "Verification"],
  ["time", "Time"],
  ["care", "Care"],
]);

/**
 * The class by task: of a task that a file holds several times the best counts. Tasks are told apart by what they ask, not by title; two of
 * one title get a number.
 *
 * @param results Graded result files, in the order they are to be shown; two files under one name stay two rows.
 * @param tasks The tasks that were handed out, if they are known: they come first, each with a column whether anybody did it or not.
 */
export function classByTask(results: readonly GradedResult[], tasks: TaskList["tasks"] = []): ClassTable {
  const all = [...tasks, ...results.flatMap(({ work }) => work.map(({ task }) => task))];
  const first = new Map([...all].reverse().map((task) => [taskKey(task), task]));
  const keys = [...new Set(all.map(taskKey))];
  const labels = numbered(keys.map((key) => titleOf(first.get(key) ?? { kind: "code", code: key })));
  const rows = results.map(({ name, work, remarks }) => {
    const points = keys.map((key) => best(work.filter(({ task }) => taskKey(task) === key).map((each) => each.points)));
    const notes = work.flatMap((each) => each.remarks.map((remark) => `${each.title}: ${remark}`));
    return { name, points, mean: meanOf(points), remarks: [...remarks, ...notes] };
  });
  return tableOf(
    labels.map((label) => ({ id: label, label })),
    rows,
  );
}

/** The same texts, those that come again with a number behind them. */
function numbered(titles: readonly string[]): readonly string[] {
  const used = new Set<string>();
  return titles.map((title) => {
    let label = title;
    for (let number = 2; used.has(label); number++) label = `${title} (${number})`;
    used.add(label);
    return label;
  });
}

/** The class by skill: of all tasks together, the share of points there were, in percent. */
export function classBySkill(results: readonly GradedResult[]): ClassTable {
  const met = new Set(results.flatMap(({ work }) => work.flatMap(({ skills }) => skills.map(({ skill }) => skill))));
  const columns = [...SKILLS].filter(([id]) => met.has(id)).map(([id, label]) => ({ id, label }));
  const rows = results.map(({ name, work, remarks }) => {
    const points = columns.map(({ id }) => {
      const parts = work.flatMap(({ skills }) => skills.filter(({ skill }) => skill === id));
      const of = parts.reduce((sum, part) => sum + part.of, 0);
      return of > 0 ? rounded((100 * parts.reduce((sum, part) => sum + part.points, 0)) / of) : undefined;
    });
    return { name, points, mean: meanOf(points), remarks };
  });
  return tableOf(columns, rows);
}

/**
 * A class table as CSV. Names and remarks that look like formulas are guarded.
 *
 * @param heading What the rows are, such as `Name`.
 */
export function classCsv({ columns, rows, means }: ClassTable, heading = "Name"): string {
  const lines: (readonly CellValue[])[] = [[heading, ...columns.map(({ label }) => label), "Mean", "Remarks"]];
  for (const { name, points, mean, remarks } of rows) lines.push([name, ...points, mean, remarks.join(" | ")]);
  lines.push(["Class", ...means, meanOf(means), undefined]);
  return writeCsv(lines);
}

/** Name of a skill in words. */
export function skillLabel(skill: string): string {
  return SKILLS.get(skill) ?? skill;
}

function tableOf(columns: ClassTable["columns"], rows: readonly ClassRow[]): ClassTable {
  return { columns, rows, means: columns.map((_, at) => meanOf(rows.map(({ points }) => points[at]))) };
}

function best(points: readonly (number | undefined)[]): number | undefined {
  const known = points.filter((each) => each !== undefined);
  return known.length > 0 ? Math.max(...known) : undefined;
}

function meanOf(points: readonly (number | undefined)[]): number | undefined {
  const known = points.filter((each) => each !== undefined);
  return known.length > 0 ? rounded(known.reduce((sum, each) => sum + each, 0) / known.length) : undefined;
}

function rounded(value: number): number {
  return Math.round(value * 10) / 10;
}

/**
 * Holds a graded result against the tasks that were handed out: what was not done is said, and what was not asked is kept but not counted.
 *
 * @returns The result with remarks; work under the titles of the list, work that is not on it without points and skills.
 */
export function againstList(list: TaskList, result: GradedResult): GradedResult {
  const titles = new Map(list.tasks.map((task) => [taskKey(task), titleOf(task)]));
  const done = new Set(result.work.map(({ task }) => taskKey(task)));
  const missing = [...titles].flatMap(([key, title]) => (done.has(key) ? [] : [title]));
  const remarks = missing.length > 0 ? [...result.remarks, `Not done: ${missing.join(", ")}.`] : result.remarks;
  return { ...result, remarks, work: result.work.map((work) => asListed(work, list, titles)) };
}

function asListed(work: GradedWork, list: TaskList, titles: ReadonlyMap<string, string>): GradedWork {
  const title = titles.get(taskKey(work.task));
  const isUnasked = list.asksHypothesis && work.kind === "exercise" && !work.asksHypothesis;
  const remarks = isUnasked ? [...work.remarks, "Done without a stated cause before each action."] : work.remarks;
  if (title !== undefined) return { ...work, title, remarks };
  const text =
    work.points === undefined
      ? "Not on the exercise list."
      : `Not on the exercise list: its ${work.points} points do not count.`;
  return { ...work, points: undefined, skills: [], remarks: [...work.remarks, text] };
}
