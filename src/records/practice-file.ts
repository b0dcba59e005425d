import { err, ok, type Result } from "../base/index.ts";
import { jsonRefusalText, parseJson } from "../model/index.ts";
import { PracticeResult, RESULT_FORMAT } from "./practice-result.ts";
import { PRACTICE_VERSION, TASK_LIST_FORMAT, TaskList } from "./practice-task-list.ts";
import { practiceCheck } from "./practice-file-text.ts";

/** What is wrong with a practice file. `path` is the way into it, empty for the whole. */
export interface PracticeProblem {
  readonly code: "too-large" | "not-json" | "wrong-format" | "newer-version" | "shape";
  readonly path: string;
  readonly message: string;
}

/** A practice file as read; `isIntact` is false where its checksum does not fit its content, so that somebody edited it. */
export interface PracticeFile<Content> {
  readonly content: Content;
  readonly isIntact: boolean;
}

const MOST_CHARACTERS = 8 * 1024 * 1024;
const MOST_PROBLEMS = 100;

/** Which practice file a text says it is, by its format; undefined where it says neither. */
export function practiceKind(text: string): "task-list" | "result" | undefined {
  const parsed = text.length > MOST_CHARACTERS ? undefined : parseJson(text);
  const format = parsed?.ok === true && isObject(parsed.value) ? parsed.value["format"] : undefined;
  if (format === TASK_LIST_FORMAT) return "task-list";
  return format === RESULT_FORMAT ? "result" : undefined;
}

/** Reads the text of a task list. */
export function readTaskList(text: string): Result<PracticeFile<TaskList>, readonly PracticeProblem[]> {
  return readPractice(text, { format: TASK_LIST_FORMAT, what: "task list", schema: TaskList });
}

/** Reads the text of a result file. */
export function readPracticeResult(text: string): Result<PracticeFile<PracticeResult>, readonly PracticeProblem[]> {
  return readPractice(text, { format: RESULT_FORMAT, what: "result file", schema: PracticeResult });
}

interface Kind<Content> {
  readonly format: string;
  readonly what: string;
  readonly schema: typeof TaskList | typeof PracticeResult;
  readonly content?: Content;
}

function readPractice<Content extends TaskList | PracticeResult>(
  text: string,
  { format, what, schema }: Kind<Content>,
): Result<PracticeFile<Content>, readonly PracticeProblem[]> {
  if (text.length > MOST_CHARACTERS)
    return fail("too-large", `The ${what} has ${text.length} characters, at most ${MOST_CHARACTERS} are read`);
  const parsed = parseJson(text);
  if (!parsed.ok) return fail("not-json", `The ${what} is not JSON: ${jsonRefusalText(parsed.error)}`);
  const header = parsed.value;
  if (!isObject(header) || header["format"] !== format)
    return fail("wrong-format", `This is no ${what}: its format is not "${format}"`, "format");
  const version = header["version"];
  if (typeof version === "number" && version > PRACTICE_VERSION) {
    const message = `The ${what} has version ${version}, this program knows ${PRACTICE_VERSION} at most: use a newer program`;
    return fail("newer-version", message, "version");
  }
  const shaped = schema.safeParse(header);
  if (!shaped.success) {
    const issues = shaped.error.issues.slice(0, MOST_PROBLEMS);
    return err(
      issues.map(({ path, message }) => ({ code: "shape", path: path.join("."), message: message.slice(0, 300) })),
    );
  }
  // The schema belongs to the format asked for, so this is the content it stands for.
  const content = shaped.data as Content;
  return ok({ content, isIntact: practiceCheck(content) === content.check });
}

function fail<Content>(
  code: PracticeProblem["code"],
  message: string,
  path = "",
): Result<PracticeFile<Content>, readonly PracticeProblem[]> {
  return err([{ code, path, message }]);
}

function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
