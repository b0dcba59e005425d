import { z } from "zod";
import type { GradedWork } from "../../practice/index.ts";
import type { Frozen } from "../frozen.ts";
import { FileProblem } from "../import/file-problem.ts";
import type { GradedFile, Grading } from "./grade-files.ts";

/** One task of a result file, worked out again. */
const Work = z.object({
  title: z.string(),
  sort: z.enum(["drills", "hunt"]),
  /** 0 to 100; null where it does not count or cannot be worked out. */
  points: z.number().nullable(),
  /** Points as the file has them. */
  claimed: z.number(),
  skills: z.array(z.object({ skill: z.string(), points: z.number(), of: z.number() })),
  /** Two damaging probes. */
  isFailed: z.boolean(),
  remarks: z.array(z.string()),
});

/** Result files as they were graded, one by one. */
export const GradesReport = z.object({
  kind: z.literal("practice-grades"),
  machine: z.string(),
  /** The task list they were held against; absent where there was none. */
  tasks: z.object({ file: z.string(), title: z.string() }).optional(),
  results: z.array(
    z.object({
      file: z.string(),
      /** Absent, with everything but the problems, where the file cannot be read. */
      graded: z
        .object({
          name: z.string(),
          isIntact: z.boolean(),
          isSameHarness: z.boolean(),
          work: z.array(Work),
          remarks: z.array(z.string()),
        })
        .optional(),
      problems: z.array(FileProblem),
    }),
  ),
  /** What is wrong with the task list. */
  problems: z.array(FileProblem),
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
