import type { Problem, ProblemCode } from "../model/index.ts";
import { tableProblemTexts } from "./tables/table-problem-texts.ts";
import { xmlProblemTexts } from "./xml/xml-problem-texts.ts";

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
 * import { importProblem } from "ohmward/formats";
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

/** Problems of a file as such, whatever its format. */
export const fileProblemTexts = {
  "file-empty": {
    severity: "error",
    message: (f: { bytes: number }) => `The file is empty (${f.bytes} bytes)`,
    hint: "Choose the file that holds the data; an empty one is often a download or copy that failed",
  },
  "file-too-large": {
    severity: "error",
    message: (f: { bytes: number; limit: number }) => `The file has ${f.bytes} bytes; the limit is ${f.limit}`,
    hint: "Split the data into several files",
  },
  "format-unknown": {
    severity: "error",
    message: (f: { reason: string }) => `The format of the file is not known: ${f.reason}`,
    hint: "Formats read: harness document (JSON), CSV, XLSX, KBL and VEC; save the data as one of them",
  },
  "encoding-unknown": {
    severity: "error",
    message: (f: { encoding: string }) => `The text is not in an encoding that can be read: ${f.encoding}`,
    hint: "Save the file as UTF-8",
  },
  "encoding-assumed": {
    severity: "warning",
    message: (f: { encoding: string }) => `The text is not UTF-8; it was read as ${f.encoding}`,
    hint: "Look at letters with accents in the preview; if they are wrong, save the file as UTF-8",
  },
  "text-with-nul": {
    severity: "error",
    message: (f: { count: number }) => `The text holds ${f.count} NUL character(s), so it is no plain text`,
    hint: "Export the table again as CSV in UTF-8, or as XLSX",
  },
  "zip-broken": {
    severity: "error",
    message: (f: { reason: string }) => `The packed file cannot be used: ${f.reason}`,
    hint: "The file was cut off, damaged or made by an unusual program; fetch or save it again",
  },
  "zip-too-large": {
    severity: "error",
    message: (f: { bytes: number; limit: number }) =>
      `The packed file claims to hold ${f.bytes} bytes or more; the limit is ${f.limit}`,
    hint: "No wiring table is that large; the file may have been made to do harm",
  },
  "zip-path": {
    severity: "error",
    message: (f: { name: string }) => `The packed file holds a name that leads out of it: "${f.name}"`,
    hint: "The file may have been made to do harm; do not unpack it elsewhere either",
  },
  "zip-encrypted": {
    severity: "error",
    message: (f: { name: string }) => `"${f.name}" is protected by a password`,
    hint: "Remove the password and save the file again",
  },
} as const;

/** Problems of putting a harness document together from what a file says. */
export const draftProblemTexts = {
  "id-changed": {
    severity: "warning",
    message: (f: { from: string; to: string; reason: string }) => `The id "${f.from}" became "${f.to}": ${f.reason}`,
    hint: "Ids start with a letter or digit, hold letters, digits and . _ + - and are used once; rename it in the file if the new name is wrong",
  },
  "system-assumed": {
    severity: "warning",
    message: (f: { volt: number }) => `The file does not say the voltage of the system; ${f.volt} V is assumed`,
    hint: "State the nominal voltage when importing",
  },
  "layout-assumed": {
    severity: "warning",
    message: (f: { connectors: number }) =>
      `The face of ${f.connectors} connector(s) is not in the file; cavities are drawn in order of their numbers`,
    hint: "Find a cavity by the number moulded on the connector, not by its place in the drawing, until the face has been entered",
  },
  "component-assumed": {
    severity: "warning",
    message: (f: { components: number }) =>
      `${f.components} component(s) were made for connectors of which the file does not say what they belong to`,
    hint: "Name the component of each connector, and join connectors that belong to one device",
  },
  "insides-unknown": {
    severity: "warning",
    message: (f: { components: number }) =>
      `Nothing is known of the inside of ${f.components} component(s), so no circuit can be followed through them and no reading computed`,
    hint: "Enter loads, fuses, switches and sources of the components that matter",
  },
  "option-added": {
    severity: "warning",
    message: (f: { option: string }) => `Option "${f.option}" is used but not listed; it was added`,
    hint: "Check that it is an option and not a slip of the pen, and say in which builds it is fitted",
  },
  "builds-assumed": {
    severity: "warning",
    message: (f: { builds: string }) => `The file lists no builds; these were made: ${f.builds}`,
    hint: "Name the builds that exist, each with its options",
  },
  "net-kinds-missing": {
    severity: "warning",
    message: (f: { nets: number }) => `The file does not say what ${f.nets} net(s) are for`,
    hint: "Give each net its kind; until then the names of lines and parts decide what may be touched, and doubt forbids",
  },
  "text-cut": {
    severity: "warning",
    message: (f: { what: string; length: number; limit: number }) =>
      `The ${f.what} has ${f.length} characters and was cut to ${f.limit}`,
    hint: "Shorten it in the file if what was cut matters",
  },
} as const;

/** What the text of a problem is: how bad, the sentence, and what to do. */
export interface ProblemText {
  readonly severity: "error" | "warning";
  readonly message: (facts: never) => string;
  readonly hint: string;
}

/** Every problem of reading and writing files, by code. No code is also one of the harness document. */
export const importProblemTexts = {
  ...fileProblemTexts,
  ...draftProblemTexts,
  ...tableProblemTexts,
  ...xmlProblemTexts,
} as const satisfies Readonly<Record<string, ProblemText>>;

/** The closed list of codes of this room. */
export type ImportProblemCode = keyof typeof importProblemTexts;
/** The values the text of a problem names. */
export type ImportProblemFacts<Code extends ImportProblemCode> = Parameters<
  (typeof importProblemTexts)[Code]["message"]
>[0];
