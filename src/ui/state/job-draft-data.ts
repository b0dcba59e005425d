import type { HarnessDocument } from "../../harness-model/index.ts";
import type { JobComplaint } from "../../job-records/index.ts";
import type { JobRequest, ReadCode, ReadWeight } from "../../application/index.ts";

/** A code with its status. */
export type DraftCode = ReadCode;

/** A function or an item that fails or works. */
export interface DraftSymptom {
  readonly item: string;
  readonly is: "bad" | "good";
}

/** Something done to the machine lately. */
export type DraftWork = JobComplaint["recentWork"][number];

/** Under which conditions the complaint shows; an empty text is "not asked". */
export interface DraftConditions {
  readonly temperature: "" | "cold" | "hot";
  readonly wetness: "" | "wet" | "dry";
  readonly presence: "" | "always" | "intermittent" | "once";
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
  readonly priors: readonly ReadWeight[];
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
 * The job as it is asked for.
 *
 * @param draft What was put together.
 * @param document The machine.
 * @param id Id of the job.
 */
export function requestOf(draft: DraftData, document: HarnessDocument, id: string): JobRequest {
  const { temperature, wetness, presence, load, weather, since } = draft.conditions;
  const lacking = new Set(draft.lacking);
  const marked = (mark: DraftSymptom["is"]): readonly string[] =>
    draft.symptoms.filter(({ is }) => is === mark).map(({ item }) => item);
  return {
    id,
    build: draft.build,
    complaint: draft.words,
    onlyWhen: [temperature, wetness].filter((each) => each !== ""),
    ...(presence !== "" && { shows: presence }),
    ...(load.trim() !== "" && { onlyWith: load.trim() }),
    ...(weather.trim() !== "" && { weather: weather.trim() }),
    ...(since.trim() !== "" && { since: since.trim() }),
    recent: draft.recentWork.filter(({ text, touched }) => text.trim() !== "" || touched.length > 0),
    codes: draft.codes,
    bad: marked("bad"),
    good: marked("good"),
    adapters: document.adapters.map(({ id: adapter }) => String(adapter)).filter((adapter) => !lacking.has(adapter)),
    weights: draft.priors,
  };
}
