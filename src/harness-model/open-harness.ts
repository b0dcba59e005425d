import { err, ok, type Result } from "../base/index.ts";
import { checkDocument } from "./checks/check-document.ts";
import { parseJson } from "./parse-json.ts";
import { documentMigrations, migrateDocument } from "./migrations.ts";
import { documentPath, problem, type Problem } from "./problem.ts";
import { FORMAT_NAME, FORMAT_VERSION, HarnessDocument } from "./schema/document.ts";

/** Limits on what is read, so that a hostile or mistaken file ends in an answer. */
export interface OpenLimits {
  /** Longest text, in characters (UTF-16 units). */
  readonly mostCharacters?: number;
}

/** A document that may be fitted, with what is odd about it. */
export interface OpenedHarness {
  readonly document: HarnessDocument;
  readonly warnings: readonly Problem[];
}

const MOST_CHARACTERS = 128 * 1024 * 1024;
/** Shape problems beyond this many are counted, not listed: one wrong column of a large file would fill the screen. */
const MOST_SHAPE_PROBLEMS = 200;
/** Longest reason a shape problem gives, in characters. */
const MOST_REASON_CHARACTERS = 300;

/**
 * Opens the text of a harness document: parses it, carries it to the newest version, checks shape, then every cross-reference in
 * every build. All problems are listed at once, except that a wrong shape hides what could only be checked on a right one.
 *
 * @param text The text of a `*.ohm.json` file.
 * @param limits Limits other than the usual ones.
 * @returns The document and its warnings, or every problem found.
 * @example
 * ```ts
 * import { openHarness } from "ohmward/harness-model";
 * const opened = openHarness("{}");
 * expect(opened.ok ? [] : opened.error.map((problem) => problem.code)).toEqual(["wrong-format"]);
 * ```
 */
export function openHarness(text: string, limits: OpenLimits = {}): Result<OpenedHarness, readonly Problem[]> {
  const limit = limits.mostCharacters ?? MOST_CHARACTERS;
  if (text.length > limit) return err([problem("too-large", { path: "" }, { bytes: text.length, limit })]);
  const parsed = parseJson(text);
  if (!parsed.ok) {
    const { reason, ...place } = parsed.error;
    return err([problem("not-json", { path: "", ...place }, { reason })]);
  }
  const header = readHeader(parsed.value);
  if (!header.ok) return err([header.error]);
  const shaped = HarnessDocument.safeParse(migrateDocument(header.value, documentMigrations));
  if (!shaped.success) return err(shapeProblems(shaped.error.issues));
  const problems = checkDocument(shaped.data);
  const errors = problems.filter((each) => each.severity === "error");
  if (errors.length > 0) return err(problems);
  return ok({ document: shaped.data, warnings: problems });
}

function readHeader(value: unknown): Result<Readonly<Record<string, unknown>>, Problem> {
  const isRecord = (candidate: unknown): candidate is Record<string, unknown> =>
    typeof candidate === "object" && candidate !== null && !Array.isArray(candidate);
  if (!isRecord(value) || value["format"] !== FORMAT_NAME) {
    const found = isRecord(value) ? shortText(value["format"]) : Array.isArray(value) ? "missing (a list)" : "missing";
    return err(problem("wrong-format", { path: "format" }, { found, wanted: FORMAT_NAME }));
  }
  const version = value["version"];
  if (typeof version === "number" && version > FORMAT_VERSION) {
    return err(problem("newer-version", { path: "version" }, { found: String(version), known: FORMAT_VERSION }));
  }
  return ok(value);
}

function shortText(value: unknown): string {
  if (value === undefined) return "missing";
  return typeof value === "string" ? `"${shorten(value, 77)}"` : `a ${typeof value}`;
}

/** A message may quote the document, and a hostile document has keys of any length. */
function shorten(text: string, most: number): string {
  return text.length > most ? `${text.slice(0, most)}…` : text;
}

interface ShapeIssue {
  readonly path: readonly PropertyKey[];
  readonly message: string;
}

function shapeProblems(issues: readonly ShapeIssue[]): readonly Problem[] {
  const listed = issues
    .slice(0, MOST_SHAPE_PROBLEMS)
    .map((issue) =>
      problem("shape", { path: documentPath(issue.path) }, { reason: shorten(issue.message, MOST_REASON_CHARACTERS) }),
    );
  const more = issues.length - listed.length;
  if (more > 0) listed.push(problem("shape", { path: "" }, { reason: `${more} more problems of this sort` }));
  return listed;
}
