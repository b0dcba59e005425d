// Floor 6: what a person can do, once, for the screen and the command line.
export * from "./answer.ts";
export type { MarkedText, Question, Setting } from "./question.ts";
