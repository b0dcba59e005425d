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
import { ExpectedReadingAnswer } from "./expect/expected-answer.ts";
import { TableAnswer } from "./expect/table-answer.ts";
import { WrongQuestionAnswer } from "./expect/wrong-question-answer.ts";
import { ExportReport } from "./export/export-report.ts";
import { GapsReport } from "./gaps/gap.ts";
import { ErrorReport, FileReport } from "./file-report.ts";
import { ImportMap } from "./import/import-map.ts";
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
  ["path", "What lies between two things", PathAnswer],
  ["no-path", "Why nothing lies between two things", NoPathAnswer],
  ["circuit", "The net and the circuits of a thing", CircuitAnswer],
  ["common", "What circuits have in common", CommonAnswer],
  ["effect", "What stops without a thing", OpenEffectAnswer],
  ["test-points", "Where a meter may be put", TestPointsAnswer],
  ["find", "Hits of a search", FindAnswer],
  ["expected", "What the meter should say between two points", ExpectedReadingAnswer],
  ["table", "What a voltmeter should say along the circuits of a thing", TableAnswer],
  ["unresolved", "Why a text names no single thing", UnresolvedAnswer],
  ["choose", "Which build or state to choose from", ChooseAnswer],
  ["wrong-question", "What is wrong with a question", WrongQuestionAnswer],
  ["import-report", "What an import made of files", ImportReport],
  ["export-report", "What was written of a machine", ExportReport],
  ["job-next", "What to do next in a job", JobNextAnswer],
  ["job-checks", "Every permitted check of a job", JobChecksAnswer],
  ["job-show", "A job as it stands", JobShowAnswer],
  ["job-weights", "What the faults of a job weigh before the first reading", JobWeightsAnswer],
  ["job-report", "A job written up", JobReportAnswer],
  ["job-refused", "Why a job was not opened or a step not taken", JobRefusal],
  ["gaps", "What can be asked of a machine yet, and what is missing", GapsReport],
  ["file-report", "What a check of a file found", FileReport],
  ["practice-tasks", "What a task list of practice holds", TasksReport],
  ["practice-grades", "Result files of practice as they were graded", GradesReport],
  ["practice-class", "A class by task and by skill", ClassReport],
  ["error", "Why a question could not be put", ErrorReport],
];

/**
 * The files of `data-schemas/` that this room owns: the JSON Schema of every kind of answer, one a file, and of the map of a table.
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
  return [...answers, schemaFile(ImportMap, map)];
}
