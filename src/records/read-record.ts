import { err, ok, type Result } from "../base/index.ts";
import { jsonRefusalText, parseJson } from "../model/index.ts";
import { JOB_FORMAT, JOB_VERSION, JobRecord } from "./schema.ts";

/** A change of the record form from one version to the next; it may rely on nothing but plain data. */
interface RecordMigration {
  /** What changed, as a short name. */
  readonly name: string;
  readonly from: number;
  readonly to: number;
  readonly migrate: (record: Readonly<Record<string, unknown>>) => Record<string, unknown>;
}

/** All migrations of the job record, oldest first. Version 1 is the first, so there are none yet. */
const recordMigrations: readonly RecordMigration[] = [];

/**
 * Carries a record of an older version to the newest one, step by step.
 *
 * @param record Parsed data with a numeric `version`; it is not changed.
 * @param migrations The steps, oldest first, each from one version to the next.
 * @returns The record at the version after the last step that applied.
 */
export function migrateRecord(
  record: Readonly<Record<string, unknown>>,
  migrations: readonly RecordMigration[],
): Readonly<Record<string, unknown>> {
  let current = record;
  for (const step of migrations) {
    if (current["version"] === step.from) current = { ...step.migrate(current), version: step.to };
  }
  return current;
}

/** What is wrong with the text of a record. `path` is the way into it, empty for the whole. */
export interface RecordProblem {
  readonly code:
    "too-large" | "not-json" | "wrong-format" | "newer-version" | "shape" | "repeated-event" | "leads-nowhere";
  readonly path: string;
  readonly message: string;
}

const MOST_CHARACTERS = 32 * 1024 * 1024;
const MOST_PROBLEMS = 100;

/**
 * Reads the text of a job record: parses it, carries it to the newest version, checks its shape and that its events refer to each other.
 *
 * @param text The text of a `*.ohmjob.json` file or of a stored record.
 * @returns The record, or everything that is wrong with it.
 * @example
 * ```ts
 * import { readRecord } from "ohmward/records";
 * const read = readRecord('{"format": "ohmward-job", "version": 99}');
 * expect(read.ok ? [] : read.error.map((problem) => problem.code)).toEqual(["newer-version"]);
 * ```
 */
export function readRecord(text: string): Result<JobRecord, readonly RecordProblem[]> {
  if (text.length > MOST_CHARACTERS) {
    return fail("too-large", `The record has ${text.length} characters, at most ${MOST_CHARACTERS} are read`);
  }
  const parsed = parseJson(text);
  if (!parsed.ok) return fail("not-json", `The record is not JSON: ${jsonRefusalText(parsed.error)}`);
  const header = parsed.value;
  if (!isObject(header) || header["format"] !== JOB_FORMAT) {
    return fail("wrong-format", `This is no job record: its format is not "${JOB_FORMAT}"`, "format");
  }
  const version = header["version"];
  if (typeof version === "number" && version > JOB_VERSION) {
    const message = `The record has version ${version}, this program knows ${JOB_VERSION} at most: use a newer program`;
    return fail("newer-version", message, "version");
  }
  const shaped = JobRecord.safeParse(migrateRecord(header, recordMigrations));
  if (!shaped.success) {
    const issues = shaped.error.issues.slice(0, MOST_PROBLEMS);
    return err(
      issues.map(({ path, message }) => ({ code: "shape", path: path.join("."), message: message.slice(0, 300) })),
    );
  }
  const problems = checkEvents(shaped.data);
  return problems.length > 0 ? err(problems) : ok(shaped.data);
}

/** The text of a record, ready to be saved: the same text for the same record, keys in the order of the schema, with a line end at its end. */
export function writeRecord(record: JobRecord): string {
  return `${JSON.stringify(JobRecord.parse(record), undefined, 2)}\n`;
}

function fail(code: RecordProblem["code"], message: string, path = ""): Result<JobRecord, readonly RecordProblem[]> {
  return err([{ code, path, message }]);
}

function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
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
