import type { z } from "zod";
import { ok, type Result } from "../base/index.ts";
import { parseJson } from "../harness-model/index.ts";
import { trainingMigrations } from "./migrations.ts";
import { contentHash } from "./content-hash.ts";
import { TRAINING_VERSION, TrainingResult, RESULT_FORMAT, TASK_LIST_FORMAT, TaskList } from "./training-schema.ts";
import { isObject, readVersioned, type ShapeProblem } from "./read-record.ts";

/** What is wrong with a practice file. */
export type TrainingProblem = ShapeProblem;

/** A practice file as read; `isIntact` is false where its checksum does not fit its content, so that it was edited. */
interface TrainingFile<Content> {
  readonly content: Content;
  readonly isIntact: boolean;
}

const MOST_CHARACTERS = 8 * 1024 * 1024;

/** Which practice file a text says it is, by its format; undefined where it says neither. */
export function trainingKind(text: string): "task-list" | "result" | undefined {
  const parsed = text.length > MOST_CHARACTERS ? undefined : parseJson(text);
  const format = parsed?.ok === true && isObject(parsed.value) ? parsed.value["format"] : undefined;
  if (format === TASK_LIST_FORMAT) return "task-list";
  return format === RESULT_FORMAT ? "result" : undefined;
}

/** Reads the text of a task list. */
export function readTaskList(text: string): Result<TrainingFile<TaskList>, readonly TrainingProblem[]> {
  return readTraining<TaskList>(text, { format: TASK_LIST_FORMAT, what: "exercise list", schema: TaskList });
}

/** Reads the text of a result file. */
export function readTrainingResult(text: string): Result<TrainingFile<TrainingResult>, readonly TrainingProblem[]> {
  return readTraining<TrainingResult>(text, { format: RESULT_FORMAT, what: "result file", schema: TrainingResult });
}

function readTraining<Content extends TaskList | TrainingResult>(
  text: string,
  file: { readonly format: string; readonly what: string; readonly schema: z.ZodType<Content> },
): Result<TrainingFile<Content>, readonly TrainingProblem[]> {
  const limits = { version: TRAINING_VERSION, mostCharacters: MOST_CHARACTERS, migrations: trainingMigrations };
  const read = readVersioned<Content>(text, { ...file, kind: file.what, ...limits });
  if (!read.ok) return read;
  const { content, written } = read.value;
  // The checksum is over the file as it was written.
  return ok({ content, isIntact: trainingCheck(written) === written["check"] });
}

/**
 * The checksum of a practice file over everything in it but the checksum itself. It shows changes made in passing. It is no signature:
 * a person who knows how it is made can make another, which is why results are worked out again from what was done.
 *
 * @param content The content, with or without its checksum.
 */
function trainingCheck(content: Readonly<Record<string, unknown>>): string {
  const { check: _, ...rest } = content;
  return contentHash(plainText(rest));
}

/** The text of a task list, its checksum calculated again. */
export function writeTaskList(list: Omit<TaskList, "check">): string {
  return write(TaskList.parse({ ...list, check: trainingCheck(list) }));
}

/** The text of a result file, its checksum calculated again. */
export function writeTrainingResult(result: Omit<TrainingResult, "check">): string {
  return write(TrainingResult.parse({ ...result, check: trainingCheck(result) }));
}

function write(content: unknown): string {
  return `${JSON.stringify(content, undefined, 2)}\n`;
}

/**
 * Writes data as JSON with the keys of every object in order of their code units, so that equal data gives equal text.
 *
 * @param data Plain data, as JSON holds it; members that are undefined are left out.
 */
export function plainText(data: unknown): string {
  if (Array.isArray(data)) return `[${data.map((each) => plainText(each ?? null)).join(",")}]`;
  if (typeof data !== "object" || data === null) return JSON.stringify(data);
  const members = Object.entries(data).filter(([, value]) => value !== undefined);
  members.sort(([a], [b]) => (a < b ? -1 : 1));
  return `{${members.map(([key, value]) => `${JSON.stringify(key)}:${plainText(value)}`).join(",")}}`;
}
