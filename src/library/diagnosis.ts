// The door for programs, published as "ohmward/diagnosis": a job from the complaint to the verified repair.
export { readRecord, writeRecord, type JobRecord } from "../records/index.ts";
export {
  beginJob as startJob,
  closeStep as closeJob,
  giveReading as takeReading,
  jobNext as nextCheck,
  openJob as resumeJob,
  proofStep as verifyRepair,
  repairStep as recordRepair,
  skipCheck,
  type JobNextAnswer as NextCheckAnswer,
  type JobStep,
  type OpenJob,
} from "../workbench/index.ts";
