import type { Result } from "../base/index.ts";
import type { HarnessDocument } from "../harness-model/index.ts";
import type { SystemInput } from "./draft/draft-parts.ts";
import type { ImportProblem } from "./import-problem.ts";
import type { TableProposal } from "./tables/table-proposal.ts";

/** How many elements of a class were kept as something, or left out for a reason. */
export interface LedgerShare {
  /** What they became, or why they were left out. */
  readonly what: string;
  readonly count: number;
}

/** What became of the elements of one class of a file: `found` is the sum of all counts of `kept` and `leftOut`. */
export interface LedgerRow {
  readonly class: string;
  readonly found: number;
  readonly kept: readonly LedgerShare[];
  readonly leftOut: readonly LedgerShare[];
}

/** What became of everything that a file holds: each element once, under its class. */
export interface Ledger {
  readonly file: string;
  readonly rows: readonly LedgerRow[];
}

/** What every reader is told. Each format may ask for more. */
export interface ReadOptions {
  /** Name of the file, for problems and for the title of the document. */
  readonly fileName: string;
  /** Name of the machine, if the person who imports knows it better than the file. */
  readonly machine?: string;
  /** Electrical system; absent means 12 V with a warning. */
  readonly system?: SystemInput;
  /** Most bytes that are read; absent means the usual limit. */
  readonly mostBytes?: number;
}

/** How far a reader has come: `share` from 0 to 1, and what it is doing, in words. */
export interface ReadProgress {
  readonly share: number;
  readonly doing: string;
}

/** A document made from a file, checked, with what is odd about it. */
export interface ImportedHarness {
  readonly document: HarnessDocument;
  readonly warnings: readonly ImportProblem[];
  /** What became of everything the file holds, one for each file; absent where the format keeps no such account. */
  readonly ledgers?: readonly Ledger[];
  /** What a person may be asked about a table. */
  readonly proposals?: readonly TableProposal[];
}

/** How reading ends. */
export type ReadResult = Result<ImportedHarness, readonly ImportProblem[]>;

/**
 * Reading in steps: each `next()` does a share of the work and tells how far it has come; the last one carries the result. A worker
 * lets go between steps, so that it can hear that the work is no longer wanted; whoever stops asking has cancelled it.
 */
export type Reading = Generator<ReadProgress, ReadResult, void>;

/** A reader of one format. */
export interface FormatReader<Options extends ReadOptions = ReadOptions> {
  /** Short name: `csv`, `xlsx`, `kbl`, `vec`, `json`. */
  readonly id: string;
  /** Name for people. */
  readonly label: string;
  /** Usual endings of file names, with the dot. */
  readonly extensions: readonly string[];
  /** Whether the bytes look like this format, by their content first. It reads no more than it must and never throws. */
  readonly recognises: (bytes: Uint8Array, fileName: string) => boolean;
  /** Reads the file in steps. It throws only on a mistake of the program, never on a bad file. */
  readonly read: (bytes: Uint8Array, options: Options) => Reading;
}

/**
 * Runs a reading from start to end without a break.
 *
 * @param reading The reading.
 * @param onProgress Told after every step; a return value of `false` stops the reading.
 * @returns The result, or undefined if it was stopped.
 */
export function runReading<Answer>(
  reading: Generator<ReadProgress, Answer, void>,
  onProgress: (progress: ReadProgress) => boolean | undefined = () => undefined,
): Answer | undefined {
  for (;;) {
    const step = reading.next();
    if (step.done === true) return step.value;
    if (onProgress(step.value) === false) return undefined;
  }
}

/** Does a piece of work that comes in steps to its end. */
export function runToEnd<Answer>(work: Generator<unknown, Answer, void>): Answer {
  for (;;) {
    const step = work.next();
    if (step.done === true) return step.value;
  }
}
