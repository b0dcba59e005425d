import { z } from "zod";
import type { GradedWork } from "../../training/index.ts";
import type { Frozen } from "../frozen.ts";
import { FileProblem } from "../import/file-problem.ts";
import type { GradedFile, Grading } from "./grade-files.ts";

/** One task of a result file, worked out again. */
const Work = z.object({
  title: z.string().describe("Title of the exercise"),
  sort: z.enum(["drills", "exercise"]).describe("Sort of exercise"),
  points: z.number().nullable().describe("0 to 100; null where it does not count or cannot be worked out"),
  claimed: z.number().describe("Points as the file has them"),
  skills: z
    .array(
      z.object({
        skill: z.string().describe("The skill"),
        points: z.number().describe("Points that were earned"),
        of: z.number().describe("Points that can be had"),
      }),
    )
    .describe("Points by skill"),
  isFailed: z.boolean().describe("Two damaging probes"),
  remarks: z.array(z.string()).describe("Remarks for the trainer"),
});

/** Result files as they were graded, one by one. */
export const GradesReport = z.object({
  kind: z.literal("practice-grades").describe("Sort of answer"),
  machine: z.string().describe("Name of the machine"),
  tasks: z
    .object({ file: z.string().describe("Name of the file"), title: z.string().describe("Title for people") })
    .optional()
    .describe("The task list they were held against; absent where there was none"),
  results: z
    .array(
      z.object({
        file: z.string().describe("Name of the file"),
        graded: z
          .object({
            name: z.string().describe("Name as the trainee typed it"),
            isIntact: z.boolean().describe("Whether the checksum fits"),
            isSameHarness: z.boolean().describe("Whether it was made with the same harness data"),
            work: z.array(Work).describe("Exercises, one by one"),
            remarks: z.array(z.string()).describe("Remarks for the trainer"),
          })
          .optional()
          .describe("Absent, with everything but the problems, where the file cannot be read"),
        problems: z.array(FileProblem).describe("Why the file was not read"),
      }),
    )
    .describe("Results, file by file"),
  problems: z.array(FileProblem).describe("What is wrong with the task list"),
});

export type GradesReport = Frozen<z.infer<typeof GradesReport>>;

/**
 * Reports on result files that were graded.
 *
 * @param machine Name of the machine.
 * @param grading What came of it.
 */
export function gradesReport(machine: string, { list, files, problems }: Grading): GradesReport {
  return {
    kind: "practice-grades",
    machine,
    ...(list ? { tasks: { file: list.file, title: list.content.title } } : {}),
    results: files.map(resultOf),
    problems,
  };
}

function resultOf({ file, result, problems }: GradedFile): GradesReport["results"][number] {
  if (!result) return { file, problems };
  const { name, work, isIntact, isSameHarness, remarks } = result;
  return { file, graded: { name, isIntact, isSameHarness, work: work.map(workOf), remarks }, problems };
}

function workOf(work: GradedWork): Frozen<z.infer<typeof Work>> {
  const { title, kind, points, claimed, skills, isFailed, remarks } = work;
  return { title, sort: kind, points: points ?? null, claimed, skills, isFailed, remarks };
}
