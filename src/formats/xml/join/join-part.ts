import type { HarnessDocument } from "../../../model/index.ts";

/** One document of several that become one. */
export interface JoinPart {
  readonly document: HarnessDocument;
  /** The one build of it to keep; absent means all. */
  readonly build?: string;
  /** Put before ids of it that are taken already; absent means a letter: `B-`, `C-`. */
  readonly prefix?: string;
}
