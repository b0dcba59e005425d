import type { Mark, Through } from "../trace/index.ts";

/** One thing asked about, as typed, with its mark. */
export interface MarkedText {
  readonly text: string;
  readonly mark: Mark;
}

/** A question as a person puts it: addresses are texts still. The same on the command line, on screen and in a link. */
export type Question =
  | { readonly kind: "trace"; readonly point: string }
  | { readonly kind: "between"; readonly from: string; readonly to: string; readonly through?: Through }
  | { readonly kind: "shared"; readonly things: readonly MarkedText[] }
  | { readonly kind: "without"; readonly thing: string }
  | { readonly kind: "probe"; readonly thing: string }
  | { readonly kind: "find"; readonly text: string };

/** Where the question is asked: which build, and in which state of the machine. */
export interface Setting {
  readonly build: string;
  /** State id; absent means the first state of the document, which by convention is key off. */
  readonly state?: string;
}

/** A {@link Setting} in which the build may be left open, as on the command line; see `chooseBuild` for what happens then. */
export interface OpenSetting {
  readonly build?: string;
  readonly state?: string;
}
