import type { Result } from "../base/index.ts";

/** Everything a command needs of the world around it, so that it can be run without one. */
export interface CommandIo {
  /** Writes to standard output. */
  readonly out: (text: string) => void;
  /** Writes to standard error. */
  readonly err: (text: string) => void;
  /** Reads a file; the failure is a sentence without its subject, such as `there is no such file`. */
  readonly readFile: (path: string) => Promise<Result<Uint8Array, string>>;
  /** Reads standard input to its end. */
  readonly readInput: () => Promise<Result<Uint8Array, string>>;
  /** Path of a file that comes with the program, such as `demo-harness/firnlark-45.ohm.json`. */
  readonly ownFile: (path: string) => string;
  /** Version of the program. */
  readonly version: string;
  /** Resolves when the person asks the program to stop. */
  readonly untilStopped: () => Promise<void>;
}
