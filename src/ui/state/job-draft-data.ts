import type { NewJob, PriorEdit } from "../../diagnosis/index.ts";
import type { HarnessDocument } from "../../model/index.ts";
import type { JobComplaint, Stamp } from "../../records/index.ts";
import type { Beginning } from "../worker/job-messages.ts";

/** A code as it was read. */
export interface DraftCode {
  readonly code: string;
  readonly status: "active" | "stored" | "absent";
}

/** A function or a thing that is bad, or that works. */
export interface DraftSymptom {
  readonly thing: string;
  readonly is: "bad" | "good";
}

/** Something done to the machine lately. */
export type DraftWork = JobComplaint["recentWork"][number];

/** Under which conditions the complaint shows; an empty text is "not asked". */
export interface DraftConditions {
  readonly temperature: "" | "cold" | "hot";
  readonly wetness: "" | "wet" | "dry";
  readonly presence: "" | "always" | "comes-and-goes" | "happened-once";
  readonly load: string;
  readonly weather: string;
  readonly since: string;
}

/** A job that is being put together. */
export interface DraftData {
  readonly build: string;
  readonly words: string;
  readonly conditions: DraftConditions;
  readonly codes: readonly DraftCode[];
  readonly symptoms: readonly DraftSymptom[];
  readonly recentWork: readonly DraftWork[];
  /** Ids of adapters that this workshop does not have. */
  readonly lacking: readonly string[];
  readonly priors: readonly PriorEdit[];
}

/** Nothing said yet. */
export const EMPTY_JOB: DraftData = {
  build: "",
  words: "",
  conditions: { temperature: "", wetness: "", presence: "", load: "", weather: "", since: "" },
  codes: [],
  symptoms: [],
  recentWork: [],
  lacking: [],
  priors: [],
};

/**
 * What a job is begun with.
 *
 * @param draft What was put together.
 * @param document The machine.
 * @param of Id of the job, and who writes when.
 */
export function beginningOf(
  draft: DraftData,
  document: HarnessDocument,
  of: { readonly id: string; readonly stamp: Stamp },
): Beginning {
  const { temperature, wetness, presence, load, weather, since } = draft.conditions;
  const complaint: JobComplaint = {
    words: draft.words.trim(),
    conditions: {
      ...(temperature !== "" && { temperature }),
      ...(wetness !== "" && { wetness }),
      ...(presence !== "" && { presence }),
      ...(load.trim() !== "" && { load: load.trim() }),
      ...(weather.trim() !== "" && { weather: weather.trim() }),
    },
    ...(since.trim() !== "" && { since: since.trim() }),
    recentWork: draft.recentWork.filter(({ text, touched }) => text.trim() !== "" || touched.length > 0),
  };
  const lacking = new Set(draft.lacking);
  const adapters = document.adapters.map(({ id }) => String(id)).filter((id) => !lacking.has(id));
  const job: NewJob = { ...of, complaint, codes: draft.codes, symptoms: draft.symptoms, adapters };
  return { job, priors: draft.priors };
}
