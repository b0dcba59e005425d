import type { JobRecord } from "../../job-records/index.ts";
import { jobText, writeRecord } from "../../application/index.ts";
import { saveText } from "./data-save.ts";

/** The forms in which a job is handed out: the record, to be opened again, or a text for people. */
export type JobForm = "file" | "text";

/** Hands a job to the person as a file to be kept. */
export function saveJob(record: JobRecord, form: JobForm): void {
  if (form === "file") saveText(`${record.id}.ohmjob.json`, "application/json", writeRecord(record));
  else saveText(`${record.id}.txt`, "text/plain", jobText(record));
}
