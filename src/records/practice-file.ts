import { err, ok, type Result } from "../base/index.ts";
import { jsonRefusalText, parseJson } from "../model/index.ts";
import { contentHash } from "./content-hash.ts";
import { PRACTICE_VERSION, PracticeResult, RESULT_FORMAT, TASK_LIST_FORMAT, TaskList } from "./practice-schema.ts";

/** What is wrong with a practice file. `path` is the way into it, empty for the whole. */
export interface PracticeProblem {
  readonly code: "too-large" | "not-json" | "wrong-format" | "newer-version" | "shape";
  readonly path: string;
  readonly message: string;
}

/** A practice file as read; `isIntact` is false where its checksum does not fit its content, so that somebody edited it. */
interface PracticeFile<Content> {
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

/**
 * The checksum of a practice file over everything in it but the checksum itself. It shows changes made in passing. It is no signature:
 * whoever knows how it is made can make another, which is why results are worked out again from what was done.
 *
 * @param content The content, with or without its checksum.
 */
function practiceCheck(content: Readonly<Record<string, unknown>>): string {
  const { check: _, ...rest } = content;
  return contentHash(plainText(rest));
}

/** The text of a task list, its checksum made anew. */
export function writeTaskList(list: Omit<TaskList, "check">): string {
  return write(TaskList.parse({ ...list, check: practiceCheck(list) }));
}

/** The text of a result file, its checksum made anew. */
export function writePracticeResult(result: Omit<PracticeResult, "check">): string {
  return write(PracticeResult.parse({ ...result, check: practiceCheck(result) }));
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
