import { z } from "zod";
import { classBySkill, classByTask, type ClassTable } from "../../training/index.ts";
import type { Frozen } from "../frozen.ts";
import { FileProblem } from "../import/file-problem.ts";
import type { Grading } from "./grade-files.ts";

/** What the columns of a class table are. */
export const CLASS_VIEWS = ["task", "skill"] as const;

/** One of the two views of a class. */
export type ClassView = (typeof CLASS_VIEWS)[number];

const Points = z.number().nullable();

const Table = z.object({
  columns: z
    .array(
      z.object({ id: z.string().describe("Short name of the column"), label: z.string().describe("Label for people") }),
    )
    .describe("Columns"),
  rows: z
    .array(
      z.object({
        name: z.string().describe("Name of the trainee"),
        points: z.array(Points).describe("Points in each column, 0 to 100; null where not done"),
        mean: Points.describe("Mean, 0 to 100; null where there is none"),
        remarks: z.array(z.string()).describe("Remarks for the trainer"),
      }),
    )
    .describe("Points 0 to 100 in the order of the columns, null where there are none"),
  means: z.array(Points).describe("Mean of each column, 0 to 100"),
});

/** A class by task and by skill. */
export const ClassReport = z.object({
  kind: z.literal("practice-class").describe("Sort of answer"),
  machine: z.string().describe("Name of the machine"),
  tasks: z
    .object({ file: z.string().describe("Name of the file"), title: z.string().describe("Title for people") })
    .optional()
    .describe("The task list the results were held against; absent where there was none"),
  byTask: Table.describe("Points by exercise"),
  bySkill: Table.describe("Points by skill"),
  problems: z.array(FileProblem).describe("Files that are in neither table, and what is wrong with the task list"),
  written: z.string().optional().describe("Where a table was written; absent where none was"),
});

export type ClassReport = Frozen<z.infer<typeof ClassReport>>;

/**
 * The table of a class.
 *
 * @param grading The graded files.
 * @param view What the columns are.
 */
export function classTable({ list, files }: Grading, view: ClassView): ClassTable {
  const results = files.flatMap(({ result }) => result ?? []);
  return view === "task" ? classByTask(results, list?.content.tasks) : classBySkill(results);
}

/**
 * Reports on a class.
 *
 * @param machine Name of the machine.
 * @param grading The graded files.
 * @param written Where a table was written, if one was.
 */
export function classReport(machine: string, grading: Grading, written?: string): ClassReport {
  const { list, files, problems } = grading;
  return {
    kind: "practice-class",
    machine,
    ...(list ? { tasks: { file: list.file, title: list.content.title } } : {}),
    byTask: asData(classTable(grading, "task")),
    bySkill: asData(classTable(grading, "skill")),
    problems: [...problems, ...files.flatMap((file) => file.problems)],
    ...(written === undefined ? {} : { written }),
  };
}

function asData({ columns, rows, means }: ClassTable): ClassReport["byTask"] {
  const orNull = (points: readonly (number | undefined)[]): readonly (number | null)[] =>
    points.map((each) => each ?? null);
  return {
    columns,
    rows: rows.map(({ name, points, mean, remarks }) => ({
      name,
      points: orNull(points),
      mean: mean ?? null,
      remarks,
    })),
    means: orNull(means),
  };
}
