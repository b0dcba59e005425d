// Floor 2: readers and writers. Every reader fills the one draft; every problem has a code, a place, a text and a hint.
export { cleanId } from "./draft/clean-id.ts";
export { HarnessDraft, type DraftStart, type Loose } from "./draft/harness-draft.ts";
export type * from "./draft/draft-types.ts";
export type { LooseCavity } from "./draft/lay-out-cavities.ts";
export {
  runReading,
  type FormatReader,
  type ImportedHarness,
  type Reading,
  type ReadOptions,
  type ReadProgress,
  type ReadResult,
} from "./format-reader.ts";
export { carryProblem, importProblem, type ImportPlace, type ImportProblem } from "./import-problem.ts";
export {
  importProblemTexts,
  type ImportProblemCode,
  type ImportProblemFacts,
  type ProblemText,
} from "./import-problem-texts.ts";
