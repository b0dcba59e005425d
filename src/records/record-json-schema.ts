import type { GeneratedFile } from "../base/index.ts";
import { schemaFile } from "../model/index.ts";
import { JOB_VERSION, JobRecord } from "./schema.ts";

/**
 * The files of `data-schemas/` that this room owns: the JSON Schema of the job record.
 *
 * @returns One file; the same text at every call.
 *
 * Source: JSON Schema, draft 2020-12.
 */
export function generatedFiles(): readonly GeneratedFile[] {
  const head = { name: "job-record", title: "job record", madeFrom: "src/records/schema.ts" };
  return [schemaFile(JobRecord, { ...head, version: JOB_VERSION })];
}
