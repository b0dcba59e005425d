// What a person can do in a job, once, for whoever asks: begin it, ask what is next, give readings, repair, prove, write up.
export { beginJob, type JobRequest } from "./begin-job.ts";
export { findCheck } from "./check-codes.ts";
export { codesOfNumbers, readCodeNumbers } from "./code-numbers.ts";
export {
  JobChecksAnswer,
  JobNextAnswer,
  JobRefusal,
  JobReportAnswer,
  JobShowAnswer,
  JobWeightsAnswer,
  type CheckFacts,
  type JobAnswer,
  type JobProblem,
  type JobSuggestion,
  type VerificationFacts,
  type PossibleCauseFacts,
} from "./job-answers.ts";
export { jobNext } from "./job-next.ts";
export type { JobMoved, JobView } from "./job-service.ts";
export { blankSheet, jobChecks, jobReport, jobShow, jobWeights } from "./job-views.ts";
export { openJob, type OpenJob } from "./open-job.ts";
export type { FactsRequest, ReadWeight } from "./read-facts.ts";
export { codesOfBuild, type ReadCode } from "./read-code.ts";
export type { ValueRequest } from "./read-value.ts";
export { jobRefusal } from "./refuse.ts";
export { takeStep, type JobStep, type StepTaken } from "./take-step.ts";
export { percent, verdictWords } from "./text/job-words.ts";
export { writeJobAnswer, type JobTextOptions } from "./write-job-answer.ts";
