import { faultLine } from "../base/index.ts";

/** A file that goes with a case: text where it is UTF-8, else its bytes in base64. */
export interface CaseContent {
  readonly name: string;
  readonly text?: string;
  readonly base64?: string;
}

/** What is known of a fault of the program. */
export interface CaseFacts {
  /** Version of the program. */
  readonly program: string;
  /** Where it runs, such as the version of Node or the name of the browser. */
  readonly system: string;
  /** When it happened, as the clock of the computer has it (ISO 8601). */
  readonly at: string;
  /** What was asked: the words of the command line, or the page and what it was doing. */
  readonly asked: readonly string[];
  /** What was thrown. */
  readonly fault: unknown;
  /** Only what the person agreed to send along. */
  readonly files?: readonly CaseContent[];
}

/** Causes of causes that are written down. */
const MOST_CAUSES = 5;

/**
 * Writes a case: what those who keep the program need to find a fault of it. No data of the person is in it but the words of what was
 * asked, what the error says, and the files that were agreed to.
 *
 * @param facts What is known.
 * @returns The text of a `*.json` file.
 */
export function writeCase({ program, system, at, asked, fault, files = [] }: CaseFacts): string {
  const form = { format: "ohmward-case", version: 1, program, system, at, asked, error: errorOf(fault, 0), files };
  return `${JSON.stringify(form, undefined, 2)}\n`;
}

/**
 * The name of a case file, such as `ohmward-case-20310201-080000123.json`; cases one after the other have names one after the other.
 *
 * @param at When it happened (ISO 8601, UTC).
 */
export function caseFileName(at: string): string {
  return `ohmward-case-${at.replaceAll(/[-:.Z]/gu, "").replace("T", "-")}.json`;
}

function errorOf(fault: unknown, depth: number): object {
  if (!(fault instanceof Error)) return { text: faultLine(fault) };
  const { stack, cause } = fault;
  return {
    text: `${fault.name}: ${fault.message}`,
    ...(stack !== undefined && { stack: stack.split("\n") }),
    ...(cause !== undefined && depth < MOST_CAUSES && { cause: errorOf(cause, depth + 1) }),
  };
}
