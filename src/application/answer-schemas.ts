import type { z } from "zod";
import type { GeneratedFile } from "../base/index.ts";
import { schemaFile } from "../harness-model/index.ts";
import {
  PathAnswer,
  ChooseAnswer,
  FindAnswer,
  NoPathAnswer,
  TestPointsAnswer,
  CommonAnswer,
  CircuitAnswer,
  UnresolvedAnswer,
  OpenEffectAnswer,
} from "./answer.ts";
import { CompareAnswer } from "./compare/compare-answer.ts";
import { ExpectedReadingAnswer } from "./expect/expected-answer.ts";
import { TableAnswer } from "./expect/table-answer.ts";
import { WrongQuestionAnswer } from "./expect/wrong-question-answer.ts";
import { ExportReport } from "./export/export-report.ts";
import { GapsReport } from "./gaps/gap.ts";
import { ErrorReport, FileReport } from "./file-report.ts";
import { ImportMap } from "./import/import-map.ts";
import { TableRepairs } from "./import/table-repairs.ts";
import { ImportReport } from "./import/import-report.ts";
import {
  JobChecksAnswer,
  JobNextAnswer,
  JobRefusal,
  JobReportAnswer,
  JobShowAnswer,
  JobWeightsAnswer,
} from "./job/job-answers.ts";
import { ClassReport } from "./training/class-report.ts";
import { GradesReport } from "./training/grades-report.ts";
import { TasksReport } from "./training/tasks-report.ts";

const SCHEMAS: readonly (readonly [name: string, title: string, schema: z.ZodType])[] = [
  ["path", "Path between two points", PathAnswer],
  ["no-path", "Why there is no path between two points", NoPathAnswer],
  ["circuit", "Circuit at a point: its net and circuits", CircuitAnswer],
  ["common", "Common wiring of circuits", CommonAnswer],
  ["effect", "Effect of an open circuit", OpenEffectAnswer],
  ["test-points", "Test points", TestPointsAnswer],
  ["find", "Hits of a search", FindAnswer],
  ["expected", "Expected reading between two points", ExpectedReadingAnswer],
  ["table", "Expected voltages along the circuits of an item", TableAnswer],
  ["unresolved", "Why a text names no single item", UnresolvedAnswer],
  ["choose", "Which build or state to choose from", ChooseAnswer],
  ["wrong-question", "What is wrong with a question", WrongQuestionAnswer],
  ["compare", "What changed between two revisions, builds or machines", CompareAnswer],
  ["import-report", "What an import made of files", ImportReport],
  ["export-report", "What was written of a machine", ExportReport],
  ["job-next", "What to do next in a job", JobNextAnswer],
  ["job-checks", "Every permitted test of a job", JobChecksAnswer],
  ["job-show", "A job at present", JobShowAnswer],
  ["job-weights", "Starting probabilities of the faults of a job", JobWeightsAnswer],
  ["job-report", "Repair report of a job", JobReportAnswer],
  ["job-refused", "Why a job was not opened or a step not done", JobRefusal],
  ["gaps", "What you can ask about a machine now, and what is missing", GapsReport],
  ["file-report", "Problems and content of a file", FileReport],
  ["practice-tasks", "Content of an exercise list", TasksReport],
  ["practice-grades", "Grades of result files", GradesReport],
  ["practice-class", "Results of the class by exercise and by skill", ClassReport],
  ["error", "Why a question has no answer", ErrorReport],
];

/**
 * The files of `data-schemas/` that this room owns: the JSON Schema of every kind of answer, one a file, and of the map and the repairs of a table.
 *
 * @returns The files; the same texts at every call.
 *
 * Source: JSON Schema, draft 2020-12.
 */
export function generatedFiles(): readonly GeneratedFile[] {
  const madeFrom = "src/application";
  const answers = SCHEMAS.map(([name, title, schema]) =>
    schemaFile(schema, { name: `answer-${name}`, title: `answer: ${title}`, madeFrom }),
  );
  const map = { name: "import-map", title: "map of a table: what its columns and codes mean", madeFrom };
  const repairs = {
    name: "table-repairs",
    title: "repairs of a table: cells and rows that a person has corrected",
    madeFrom,
  };
  return [...answers, schemaFile(ImportMap, map), schemaFile(TableRepairs, repairs)];
}
