import type { GeneratedFile } from "../base/index.ts";
import { schemaFile } from "../harness-model/index.ts";
import { TRAINING_VERSION, TrainingResult, TaskList } from "./training-schema.ts";
import { JOB_VERSION, JobRecord } from "./schema.ts";

/**
 * The files of `data-schemas/` that this room owns: the JSON Schemas of job records, task lists and result files; the same texts at
 * every call.
 *
 * Source: JSON Schema, draft 2020-12.
 */
export function generatedFiles(): readonly GeneratedFile[] {
  const training = { madeFrom: "src/job-records", version: TRAINING_VERSION };
  return [
    schemaFile(JobRecord, {
      name: "job-record",
      title: "job record",
      madeFrom: "src/job-records/schema.ts",
      version: JOB_VERSION,
    }),
    schemaFile(TaskList, { ...training, name: "practice-tasks", title: "task list" }),
    schemaFile(TrainingResult, { ...training, name: "practice-result", title: "practice result" }),
  ];
}
