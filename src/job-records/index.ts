// Floor 2: what is recorded of a job, and nothing of how it is calculated or where it is stored.
export {
  appendEvent,
  replayEvents,
  newRecord,
  type CodeStatus,
  type JobFacts,
  type NewEvent,
  type Stamp,
  type CurrentReading,
} from "./replay-events.ts";
export { contentHash } from "./content-hash.ts";
export { causeWords, describeEntered, jobText } from "./job-text.ts";
export {
  INSPECTION_OUTCOME_NAMES,
  OUTCOME_NAMES,
  PRESENCE_NAMES,
  STATUS_NAMES,
  SYMPTOM_NAMES,
  VERDICT_NAMES,
} from "./job-words.ts";
export { generatedFiles } from "./record-json-schema.ts";
export { jobSheet, type SheetRow } from "./job-sheet.ts";
export {
  mergeRecords,
  saveJoined,
  summariseJob,
  type JobStore,
  type JobSummary,
  type StoreFault,
} from "./job-store.ts";
export { recordMigrations, trainingMigrations } from "./migrations.ts";
export { readRecord, writeRecord } from "./read-record.ts";
export {
  JobOutcome,
  JobRecord,
  Verdict,
  type EnteredReading,
  type JobComplaint,
  type JobEvent,
  type JobMachine,
  type RecordedCheck,
} from "./schema.ts";
export {
  plainText,
  trainingKind,
  readTrainingResult,
  readTaskList,
  writeTrainingResult,
  writeTaskList,
  type TrainingProblem,
} from "./training-file.ts";
export {
  EXERCISE_ITEM_TYPES,
  ExerciseEvent,
  MOST_TASKS,
  TRAINING_VERSION,
  TrainingResult,
  TrainingTask,
  RESULT_FORMAT,
  TASK_LIST_FORMAT,
  TaskList,
  type TrainingMachine,
  type TrainingWork,
} from "./training-schema.ts";
