import type { Problem, ProblemCode } from "../harness-model/index.ts";
import { importProblemTexts, type ImportProblemCode, type ImportProblemFacts } from "./import-problem-texts.ts";

/** Where in the imported file a problem sits. What a format has no word for is left out. */
export interface ImportPlace {
  /** Name of the file, or of the entry inside a packed file. */
  readonly file?: string;
  /** Name of the sheet of a workbook. */
  readonly sheet?: string;
  /** Row of the table from 1, the heading row counted. */
  readonly row?: number;
  /** Heading of the column, or its letter where it has none. */
  readonly column?: string;
  /** Line of the text, from 1. */
  readonly line?: number;
  /** Way into a structured file, such as `Harness/Connection[12]`, or into the document made from the file. */
  readonly path?: string;
}

/** One thing that is wrong with a file that is read or written: what, where, and what to do about it. */
export interface ImportProblem {
  /** A code of this room, or of the harness document where the file was readable and what it says does not fit together. */
  readonly code: ImportProblemCode | ProblemCode;
  /** An error keeps the file from being imported; a warning does not. */
  readonly severity: "error" | "warning";
  readonly at: ImportPlace;
  readonly message: string;
  readonly hint: string;
}

/**
 * Makes an import problem; its wording comes from the one catalogue of texts.
 *
 * @param code Which problem.
 * @param at Where in the file.
 * @param facts The values the text names; which ones depends on the code.
 * @example
 * ```ts
 * import { importProblem } from "ohmward/import-export";
 * const found = importProblem("file-empty", { file: "pins.csv" }, { bytes: 0 });
 * expect([found.severity, found.at.file]).toEqual(["error", "pins.csv"]);
 * ```
 */
export function importProblem<Code extends ImportProblemCode>(
  code: Code,
  at: ImportPlace,
  facts: ImportProblemFacts<Code>,
): ImportProblem {
  const text = importProblemTexts[code];
  // The catalogue pairs each code with the facts its text needs; the compiler cannot follow the pairing through the lookup.
  const fill = text.message as unknown as (facts: ImportProblemFacts<Code>) => string;
  return { code, severity: text.severity, at, message: fill(facts), hint: text.hint };
}

/**
 * Carries a problem of the harness document over to the file it was made from, under the same code.
 *
 * @param problem What the checks of the document found.
 * @param place Where in the file the thing concerned stands, if that is known; the way into the document is kept beside it.
 */
export function carryProblem(problem: Problem, place: ImportPlace | undefined): ImportProblem {
  const { code, severity, message, hint } = problem;
  const { path, line } = problem.at;
  return { code, severity, at: { path, ...(line === undefined ? {} : { line }), ...place }, message, hint };
}

/** The same problem with the name of the file, where it does not say one. */
export function inFile(problem: ImportProblem, file: string): ImportProblem {
  return { ...problem, at: { file, ...problem.at } };
}

/** What is wrong with the size of a file; undefined if nothing is. */
export function sizeFault(bytes: Uint8Array, limit: number): ImportProblem | undefined {
  if (bytes.length === 0) return importProblem("file-empty", {}, { bytes: 0 });
  return bytes.length > limit ? importProblem("file-too-large", {}, { bytes: bytes.length, limit }) : undefined;
}
