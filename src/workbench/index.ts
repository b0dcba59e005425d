// Floor 6: what a person can do, once, for the screen and the command line.
export * from "./answer.ts";
export { ask } from "./ask.ts";
export { generatedFiles } from "./answer-schemas.ts";
export { chooseBuild, type ChosenBuild } from "./choose-build.ts";
export { ExpectAnswer, type LeadFacts } from "./expect/expect-answer.ts";
export { TableAnswer, type TableReading, type TableRow } from "./expect/table-answer.ts";
export { WrongQuestionAnswer } from "./expect/wrong-question.ts";
export { bandOf, meaningOf, shortReading } from "./expect/meaning.ts";
export { ErrorReport, FileReport, reportOnFile } from "./file-report.ts";
export type { Frozen } from "./frozen.ts";
export { machineOf, openMachine, type Machine } from "./open-machine.ts";
export {
  EXPECT_METERS,
  type Conditions,
  type ExpectMeter,
  type ExpectQuestion,
  type MarkedText,
  type OpenSetting,
  type Question,
  type Setting,
  type TableQuestion,
} from "./question.ts";
export { readQuestionLink, writeQuestionLink, type LinkedQuestion } from "./question-link.ts";
export { writeAnswer, writeReport } from "./write-answer.ts";
