import type { Result } from "../../base/index.ts";
import type { DescribedChoice, JobFault, NewJob, PriorEdit } from "../../diagnosis/index.ts";
import type { HarnessDocument } from "../../model/index.ts";
import type { GivenReading, JobRecord, NewEvent, Stamp } from "../../records/index.ts";
import type { JobShown, PreviewShown } from "./job-shown.ts";

/** A step in a job. */
export type JobStep =
  | { readonly kind: "reading"; readonly key: string; readonly given: GivenReading }
  | { readonly kind: "edit"; readonly of: string; readonly given: GivenReading }
  /** A check that was read before, read again after the repair. */
  | { readonly kind: "proof"; readonly key: string; readonly given: GivenReading }
  | { readonly kind: "undo"; readonly ids: readonly string[] }
  /** Anything else that happened, in order. */
  | { readonly kind: "note"; readonly events: readonly NotedEvent[] };

/** An event that is neither a reading nor a correction. */
export type NotedEvent = Exclude<NewEvent, { kind: "reading" | "undo" | "amend" }>;

/** What a job is begun with: what was told, and weights a person changed beforehand. */
export interface Beginning {
  readonly job: NewJob;
  readonly priors: readonly PriorEdit[];
}

/** What the worker is asked. It is told the machine first; after that every question stands on its own. */
export type JobRequest =
  | { readonly kind: "machine"; readonly document: HarnessDocument }
  /** What would follow from a complaint. */
  | { readonly kind: "preview"; readonly build: string; readonly beginning: Beginning }
  | { readonly kind: "begin"; readonly build: string; readonly beginning: Beginning }
  | { readonly kind: "step"; readonly record: JobRecord; readonly step: JobStep; readonly stamp: Stamp }
  /** How a job stands. `chosen` is the key of a check that a person wants in place of the proposed one. */
  | { readonly kind: "show"; readonly record: JobRecord; readonly chosen?: string }
  /** Permitted checks that fit some words. */
  | { readonly kind: "search"; readonly record: JobRecord; readonly words: string };

/** A permitted check that was searched for. */
export type FoundCheck = Pick<DescribedChoice, "key" | "title" | "condition"> & { readonly isDone: boolean };

/** Answers by the kind of question. */
export interface JobReplies {
  readonly machine: undefined;
  readonly preview: Result<PreviewShown, JobFault>;
  readonly begin: Result<JobRecord, JobFault>;
  readonly step: Result<JobRecord, JobFault>;
  readonly show: Result<JobShown, JobFault>;
  readonly search: { readonly found: readonly FoundCheck[]; readonly count: number };
}
