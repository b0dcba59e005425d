import type { CodeStatus } from "../../job-records/index.ts";
import { err, ok, wordsOf, type Result } from "../../base/index.ts";
import { makeFitting, type Code, type Harness } from "../../harness-model/index.ts";
import { resolve } from "../../connectivity/index.ts";
import { codesOfNumbers, readCodeNumbers, type CodeNumbers } from "./code-numbers.ts";
import type { JobProblem } from "./job-answers.ts";

/** A diagnostic trouble code (DTC) with its status. */
export interface ReadCode {
  readonly code: string;
  readonly status: CodeStatus;
}

/** The trouble codes that a variant can set. */
export function codesOfBuild({ build, document }: Harness): readonly Code[] {
  const isFitted = makeFitting(build);
  return document.codes.filter(({ when }) => isFitted(when));
}

const STATUS = /^(.*?)(?:\s*=\s*(active|previously-active|not-present|stored|absent))?$/iu;
/** What version 0.1 called a status. */
const OLD_STATUS = wordsOf({ stored: "previously-active", absent: "not-present" });
const HINT =
  'Write a DTC such as "FE111", or "SPN 520301 FMI 3". If it is not active, add "=previously-active" or "=not-present".';

/**
 * Reads a trouble code as typed: its name, or suspect parameter number and failure mode identifier; with `=stored` or `=absent` after it.
 *
 * @param harness The harness.
 * @param asked What was typed; or a code that was chosen.
 * @returns The code of the document with its status, active if nothing else is said.
 */
export function readCode(harness: Harness, asked: string | ReadCode): Result<ReadCode, JobProblem> {
  const text = typeof asked === "string" ? asked : `${asked.code}=${asked.status}`;
  const [, typed = "", said = "active"] = STATUS.exec(text.trim()) ?? [];
  const problem = (message: string, hint = HINT): Result<never, JobProblem> => err({ at: "--code", message, hint });
  const status = OLD_STATUS(said.toLowerCase());
  if (status !== "active" && status !== "previously-active" && status !== "not-present")
    return problem(`"${said}" is not a status of a DTC.`);
  const codes = codesOfBuild(harness);
  const named = codes.find(({ id }) => id.toLowerCase() === typed.toLowerCase());
  if (named) return ok({ code: named.id, status });
  const numbers = readCodeNumbers(typed);
  if (numbers?.fmi !== undefined) {
    const found = byNumbers(codes, numbers);
    return found.ok ? ok({ code: found.value.id, status }) : problem(found.error);
  }
  const near = resolve(harness, typed);
  const ids = near.kind === "unknown" ? near.suggestions.filter(({ type }) => type === "code").map(({ id }) => id) : [];
  const hint = ids.length > 0 ? `Similar names: ${ids.join(", ")}.` : HINT;
  return problem(`The harness data has no DTC "${typed}" in this variant.`, hint);
}

/** The trouble code with these numbers; or the only one of the number whose circuit failed as the identifier means. */
function byNumbers(codes: readonly Code[], numbers: CodeNumbers): Result<Code, string> {
  const { spn, fmi } = numbers;
  const { exact, alike, ofParameter } = codesOfNumbers(codes, numbers);
  const [found] = exact;
  if (found) return ok(found);
  const [only, second] = alike;
  if (only && !second) return ok(only);
  if (ofParameter.length === 0) return err(`The harness data has no DTC of SPN ${spn} in this variant.`);
  const list = ofParameter.map(({ id, fmi: each, label }) => `${id} (FMI ${each ?? "not given"}, ${label})`).join("; ");
  return err(`The harness data has SPN ${spn}, but not with FMI ${fmi}. It has: ${list}.`);
}
