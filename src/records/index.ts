// Floor 2: what is written down of a job, and nothing of how it is worked out or where it is stored.
export { appendEvent, newRecord, type NewEvent, type Stamp } from "./append-event.ts";
export { contentHash } from "./content-hash.ts";
export { describeGiven } from "./describe-given.ts";
export { foldRecord, type JobFacts, type StandingReading } from "./fold-record.ts";
export { generatedFiles } from "./record-json-schema.ts";
export { jobSheet, type JobSheet, type SheetRow } from "./job-sheet.ts";
export { saveJoined, type JobStore, type JobSummary, type StoreFault } from "./job-store.ts";
export { causeWords, jobText } from "./job-text.ts";
export { joinRecords } from "./join-records.ts";
export { migrateRecord, recordMigrations, type RecordMigration } from "./migrations.ts";
export { readRecord, writeRecord, type RecordProblem } from "./read-record.ts";
export {
  JOB_FORMAT,
  JOB_VERSION,
  JobRecord,
  type GivenReading,
  type JobComplaint,
  type JobEvent,
  type JobMachine,
  type RecordedCheck,
  type RecordedSuspect,
} from "./schema.ts";
export { summariseJob } from "./summarise-job.ts";
export {
  practiceKind,
  readPracticeResult,
  readTaskList,
  type PracticeFile,
  type PracticeProblem,
} from "./practice-file.ts";
export { HUNT_THING_TYPES, HuntEvent } from "./practice-hunt-event.ts";
export { practiceSchemaFiles } from "./practice-json-schema.ts";
export { plainText } from "./practice-plain-text.ts";
export { PracticeResult, RESULT_FORMAT, type PracticeWork } from "./practice-result.ts";
export {
  MOST_TASKS,
  PRACTICE_VERSION,
  PracticeTask,
  TASK_LIST_FORMAT,
  TaskList,
  type PracticeMachine,
} from "./practice-task-list.ts";
export { practiceCheck, writePracticeResult, writeTaskList } from "./practice-file-text.ts";
