import { problemTexts, type ProblemCode, type ProblemFacts } from "./problem-texts.ts";

/** Where a problem sits. `path` is the way into the document, such as `wires[3].ends[0]`; `id` the thing concerned. */
export interface ProblemPlace {
  readonly path: string;
  readonly id?: string;
  /** Line and column of the text, both from 1, where the text itself does not parse. */
  readonly line?: number;
  readonly column?: number;
  /** The build in which the problem appears, where it does not appear in all. */
  readonly build?: string;
}

/** One thing that is wrong with a file: what, where, and what to do about it. */
export interface Problem {
  readonly code: ProblemCode;
  /** An error keeps the document from opening; a warning does not. */
  readonly severity: "error" | "warning";
  readonly at: ProblemPlace;
  readonly message: string;
  readonly hint: string;
}

/**
 * Makes a problem; its wording comes from the one catalogue of texts.
 *
 * @param code Which problem.
 * @param at Where.
 * @param facts The values the text names; which ones depends on the code.
 */
export function problem<Code extends ProblemCode>(code: Code, at: ProblemPlace, facts: ProblemFacts<Code>): Problem {
  const text = problemTexts[code];
  // The catalogue pairs each code with the facts its text needs; the compiler cannot follow the pairing through the lookup.
  const fill = text.message as (facts: ProblemFacts<Code>) => string;
  return { code, severity: text.severity, at, message: fill(facts), hint: text.hint };
}

/** Joins a way into the document from keys and positions: `wires`, 3, `ends`, 0 become `wires[3].ends[0]`. */
export function documentPath(steps: readonly (string | number | symbol)[]): string {
  let path = "";
  for (const step of steps) {
    if (typeof step === "number") path += `[${step}]`;
    else path += path === "" ? String(step) : `.${String(step)}`;
  }
  return path;
}
