import type { JobEvent } from "../../job-records/index.ts";

/** What a person calls each sort of event of a job. */
export const EVENT_NAMES: Readonly<Record<JobEvent["kind"], string>> = {
  complaint: "complaint",
  code: "DTC",
  symptom: "symptom",
  equipment: "adapters",
  prior: "change to the starting probability",
  reading: "reading",
  amend: "correction",
  undo: "undo",
  cause: "cause",
  repair: "repair",
  proof: "verification",
  note: "note",
  closed: "closing",
};
