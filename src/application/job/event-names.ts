import type { JobEvent } from "../../job-records/index.ts";

/** What a person calls each sort of event of a job. */
export const EVENT_NAMES: Readonly<Record<JobEvent["kind"], string>> = {
  complaint: "complaint",
  code: "code",
  symptom: "function",
  equipment: "adapters",
  prior: "changed weight",
  reading: "reading",
  amend: "correction",
  undo: "taking back",
  cause: "cause",
  repair: "repair",
  proof: "proof",
  note: "note",
  closed: "closing",
};
