import type { GeneratedFile } from "../base/index.ts";
import { schemaFile } from "../model/index.ts";
import { PracticeResult } from "./practice-result.ts";
import { PRACTICE_VERSION, TaskList } from "./practice-task-list.ts";

/**
 * The JSON Schemas of task lists and result files, for `data-schemas/`.
 *
 * @returns Two files; the same texts at every call.
 *
 * Source: JSON Schema, draft 2020-12.
 */
export function practiceSchemaFiles(): readonly GeneratedFile[] {
  const head = { madeFrom: "src/records", version: PRACTICE_VERSION };
  return [
    schemaFile(TaskList, { ...head, name: "practice-tasks", title: "task list" }),
    schemaFile(PracticeResult, { ...head, name: "practice-result", title: "practice result" }),
  ];
}
