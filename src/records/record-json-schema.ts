import type { GeneratedFile } from "../base/index.ts";
import { schemaFile } from "../model/index.ts";
import { PRACTICE_VERSION, PracticeResult, TaskList } from "./practice-schema.ts";
import { JOB_VERSION, JobRecord } from "./schema.ts";

/**
 * The files of `data-schemas/` that this room owns: the JSON Schemas of job records, task lists and result files; the same texts at
 * every call.
 *
 * Source: JSON Schema, draft 2020-12.
 */
export function generatedFiles(): readonly GeneratedFile[] {
  const practice = { madeFrom: "src/records", version: PRACTICE_VERSION };
  return [
    schemaFile(JobRecord, {
      name: "job-record",
      title: "job record",
      madeFrom: "src/records/schema.ts",
      version: JOB_VERSION,
    }),
    schemaFile(TaskList, { ...practice, name: "practice-tasks", title: "task list" }),
    schemaFile(PracticeResult, { ...practice, name: "practice-result", title: "practice result" }),
  ];
}
