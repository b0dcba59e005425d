// What a person can do in a job, once, for whoever asks: begin it, ask what is next, give readings, repair, prove, write up.
export { adoptData } from "./adopt-data.ts";
export { addStep } from "./add-step.ts";
export { beginJob, type JobRequest } from "./begin-job.ts";
export { closeStep, type CloseRequest } from "./close-step.ts";
export { codesOfNumbers, readCodeNumbers } from "./code-numbers.ts";
export {
  JobChecksAnswer,
  JobNextAnswer,
  JobRefusal,
  JobReportAnswer,
  JobShowAnswer,
  JobWeightsAnswer,
  type JobAnswer,
  type JobProblem,
} from "./job-answers.ts";
export { jobNext, REPAIRED_IN_VAIN } from "./job-next.ts";
export { jobReport } from "./job-report.ts";
export type { JobStep, StepTaken } from "./job-step.ts";
export { jobChecks, jobShow, jobWeights } from "./job-views.ts";
export { openJob, type OpenJob } from "./open-job.ts";
export { proofStep } from "./proof-step.ts";
export type { FactsRequest } from "./read-facts.ts";
export type { ValueRequest } from "./read-value.ts";
export { jobRefusal } from "./refuse.ts";
export { repairStep, type RepairRequest } from "./repair-step.ts";
export { correctReading, giveReading, skipCheck, type ReadingRequest } from "./take-given.ts";
export { undoStep } from "./undo-step.ts";
export { writeJobAnswer, type JobTextOptions } from "./write-job-answer.ts";
