import { openHarness, type Problem } from "ohmward/harness-model";
import { baseDocument, type DocumentInput } from "./support.ts";

/** What opening ends in: the problems; an empty list where the document opens. */
export function problemsOf(text: string): readonly Problem[] {
  const opened = openHarness(text);
  return opened.ok ? opened.value.warnings : opened.error;
}

export function codesOf(text: string): readonly string[] {
  return [...new Set(problemsOf(text).map((problem) => problem.code))].sort();
}

/** The text of the base document after a change. */
export function changed(change: (document: DocumentInput) => void): string {
  const document = baseDocument();
  change(document);
  return JSON.stringify(document);
}
