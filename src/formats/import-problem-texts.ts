import { draftProblemTexts } from "./draft/draft-problem-texts.ts";
import { fileProblemTexts } from "./file-problem-texts.ts";
import { tableProblemTexts } from "./tables/table-problem-texts.ts";
import { xmlProblemTexts } from "./xml/xml-problem-texts.ts";

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
