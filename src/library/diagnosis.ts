// The door for programs, published as "ohmward/diagnosis": a job from the complaint to the verified repair.
export {
  beginJob as startJob,
  jobNext as nextCheck,
  openJob as resumeJob,
  readRecord,
  takeStep,
  writeRecord,
  type JobNextAnswer as NextCheckAnswer,
  type JobStep,
  type OpenJob,
  type StepTaken,
} from "../application/index.ts";
export type { JobRecord } from "../job-records/index.ts";
