import { againstList, makeGrader, openTaskList, type GradedResult } from "../../training/index.ts";
import { trainingKind, type TaskList } from "../../job-records/index.ts";
import type { FileProblem } from "../import/file-problem.ts";
import type { Machine } from "../open-machine.ts";
import { trainingFileProblem } from "./training-problem.ts";
import { tasksReport } from "./tasks-report.ts";

/** A file as it was handed in: its text, or why there is none. */
export interface HandedIn {
  readonly name: string;
  readonly text?: string;
  readonly problem?: FileProblem;
}

/** One result file, graded or not. */
export interface GradedFile {
  readonly file: string;
  /** Absent where the file cannot be read. */
  readonly result?: GradedResult;
  readonly problems: readonly FileProblem[];
}

/** All files of a class. */
export interface Grading {
  /** The list that was handed out, if it is among the files and can be read. */
  readonly list?: { readonly file: string; readonly content: TaskList };
  readonly files: readonly GradedFile[];
  /** What is wrong with the task list, or with there being several. */
  readonly problems: readonly FileProblem[];
}

/** How far grading has come, from 0 to 1, and at which file. */
export interface GradingProgress {
  readonly share: number;
  readonly doing: string;
}

/**
 * Grades the result files of a class against the task list that is among them, if there is one: files are told apart by what is in them.
 * A file that cannot be read keeps none of the others from being graded.
 *
 * @param machine The machine the class works with.
 * @param files What was handed in, in the order it is to be shown.
 * @returns A piece of work in steps, one a file, because the planner's path of a hunt takes seconds to find.
 */
export function* gradeFiles(machine: Machine, files: readonly HandedIn[]): Generator<GradingProgress, Grading, void> {
  const isList = (file: HandedIn): boolean => file.text !== undefined && trainingKind(file.text) === "task-list";
  const [first, ...more] = files.filter(isList);
  const opened = first?.text === undefined ? undefined : openTaskList(machine.document, first.text);
  const list = opened?.ok === true && first ? { file: first.name, content: opened.value.list } : undefined;
  const problems = [
    ...(first?.text === undefined ? [] : tasksReport(machine, { name: first.name, text: first.text }).problems),
    ...more.map((file) => oneTooMany(file.name, first?.name ?? "")),
  ];
  const { grade } = makeGrader(machine.document);
  const results = files.filter((file) => !isList(file));
  const graded: GradedFile[] = [];
  for (const { name, text, problem } of results) {
    yield { share: graded.length / results.length, doing: `grading ${name}` };
    const read = text === undefined ? undefined : grade(text);
    if (read?.ok === true) {
      const result = list ? againstList(list.content, read.value) : read.value;
      graded.push({ file: name, result, problems: [] });
    } else {
      const found = read?.error.map((each) => trainingFileProblem(name, each)) ?? (problem ? [problem] : []);
      graded.push({ file: name, problems: found });
    }
  }
  return { ...(list ? { list } : {}), files: graded, problems };
}

/** Whether all is well: every file graded, nothing to remark on that the trainer has to look into. */
export function isClean({ files, problems }: Grading): boolean {
  const isFine = ({ result }: GradedFile): boolean =>
    result !== undefined &&
    result.isIntact &&
    result.isSameHarness &&
    result.work.every(({ points, isAsClaimed }) => points !== undefined && isAsClaimed);
  return problems.length === 0 && files.length > 0 && files.every(isFine);
}

function oneTooMany(file: string, taken: string): FileProblem {
  const message = `There are two exercise lists; ${taken} counts`;
  const hint = "Grade the results of each list separately";
  return { severity: "error", code: "second-list", at: { file }, message, hint };
}
