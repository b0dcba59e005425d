import type { z } from "zod";
import { err, ok, type Result } from "../base/index.ts";
import { jsonRefusalText, migrateDocument, parseJson, type Migration } from "../harness-model/index.ts";
import { recordMigrations } from "./migrations.ts";
import { JOB_FORMAT, JOB_VERSION, JobRecord } from "./schema.ts";

/** What is wrong with the text of a file. `path` is the way into it, empty for the whole. */
export interface ShapeProblem {
  readonly code: "too-large" | "not-json" | "wrong-format" | "newer-version" | "shape";
  readonly path: string;
  readonly message: string;
}

/** What is wrong with the text of a record. */
export type RecordProblem = Omit<ShapeProblem, "code"> & {
  readonly code: ShapeProblem["code"] | "repeated-event" | "leads-nowhere";
};

const MOST_PROBLEMS = 100;

/**
 * Reads the text of a job record: parses it, carries it to the newest version, checks its shape and that its events refer to each other.
 *
 * @param text The text of a `*.ohmjob.json` file or of a stored record.
 * @returns The record, or everything that is wrong with it.
 * @example
 * ```ts
 * import { readRecord } from "ohmward/job-records";
 * const read = readRecord('{"format": "ohmward-job", "version": 99}');
 * expect(read.ok ? [] : read.error.map((problem) => problem.code)).toEqual(["newer-version"]);
 * ```
 */
export function readRecord(text: string): Result<JobRecord, readonly RecordProblem[]> {
  const read = readVersioned<JobRecord>(text, {
    format: JOB_FORMAT,
    version: JOB_VERSION,
    mostCharacters: 32 * 1024 * 1024,
    what: "record",
    kind: "job record",
    schema: JobRecord,
    migrations: recordMigrations,
  });
  if (!read.ok) return read;
  const problems = checkEvents(read.value.content);
  return problems.length > 0 ? err(problems) : ok(read.value.content);
}

/** A sort of file with a format name and a version. */
interface VersionedFile<Content> {
  readonly format: string;
  /** The newest version that is read. */
  readonly version: number;
  readonly mostCharacters: number;
  /** What messages call the file, and what they call its sort. */
  readonly what: string;
  readonly kind: string;
  readonly schema: z.ZodType<Content>;
  readonly migrations: readonly Migration[];
}

/** A file as read, and as it was written: in the words of its own version. */
interface ReadFile<Content> {
  readonly content: Content;
  readonly written: Readonly<Record<string, unknown>>;
}

/** Reads the text of a file that carries its format and version: at most so long, JSON, of this format, not newer, in the shape of the schema. */
export function readVersioned<Content>(
  text: string,
  file: VersionedFile<Content>,
): Result<ReadFile<Content>, readonly ShapeProblem[]> {
  const { format, version, mostCharacters, what, kind, schema, migrations } = file;
  const fail = (code: ShapeProblem["code"], message: string, path = ""): Result<never, readonly ShapeProblem[]> =>
    err([{ code, path, message }]);
  if (text.length > mostCharacters)
    return fail("too-large", `The ${what} has ${text.length} characters, at most ${mostCharacters} are read`);
  const parsed = parseJson(text);
  if (!parsed.ok) return fail("not-json", `The ${what} is not JSON: ${jsonRefusalText(parsed.error)}`);
  const header = parsed.value;
  if (!isObject(header) || header["format"] !== format)
    return fail("wrong-format", `This is no ${kind}: its format is not "${format}"`, "format");
  const own = header["version"];
  if (typeof own === "number" && own > version) {
    const message = `The ${what} has version ${own}, this program knows ${version} at most: use a newer program`;
    return fail("newer-version", message, "version");
  }
  const shaped = schema.safeParse(migrateDocument(header, migrations));
  if (shaped.success) return ok({ content: shaped.data, written: header });
  const issues = shaped.error.issues.slice(0, MOST_PROBLEMS);
  return err(
    issues.map(({ path, message }) => ({ code: "shape", path: path.join("."), message: message.slice(0, 300) })),
  );
}

/** The text of a record, ready to be saved: the same text for the same record, keys in the order of the schema, with a line end at its end. */
export function writeRecord(record: JobRecord): string {
  return `${JSON.stringify(JobRecord.parse(record), undefined, 2)}\n`;
}

/** Whether parsed JSON is an object. */
export function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** Event ids are unique, and what an event refers to stands before it. */
function checkEvents(record: JobRecord): readonly RecordProblem[] {
  const known = new Map<string, string>();
  const problems: RecordProblem[] = [];
  record.events.forEach((event, index) => {
    const path = `events.${index}`;
    if (known.has(event.id)) {
      problems.push({ code: "repeated-event", path, message: `Two events have the id "${event.id}"` });
    }
    if (event.kind === "amend" || event.kind === "undo") {
      const kind = known.get(event.of);
      const isWrong = kind === undefined || (event.kind === "amend" && kind !== "reading" && kind !== "proof");
      const message = `The event refers to "${event.of}", which is no earlier ${event.kind === "undo" ? "event" : "reading"}`;
      if (isWrong) problems.push({ code: "leads-nowhere", path, message });
    }
    known.set(event.id, event.kind);
  });
  return problems.slice(0, MOST_PROBLEMS);
}
