// Floor 6: what a person can do, once, for the screen and the command line.
export * from "./answer.ts";
export { ask } from "./ask.ts";
export { generatedFiles } from "./answer-schemas.ts";
export { chooseBuild, type ChosenBuild } from "./choose-build.ts";
export { ErrorReport, FileReport, reportOnFile } from "./file-report.ts";
export type { Frozen } from "./frozen.ts";
export { machineOf, openMachine, type Machine } from "./open-machine.ts";
export type { MarkedText, OpenSetting, Question, Setting } from "./question.ts";
export { readQuestionLink, writeQuestionLink, type LinkedQuestion } from "./question-link.ts";
export { writeAnswer, writeReport } from "./write-answer.ts";
