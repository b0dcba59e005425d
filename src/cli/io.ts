import type { Result } from "../base/index.ts";

/** Everything a command needs of the world around it, so that it can be run without one. */
export interface CommandIo {
  /** Writes to standard output. */
  readonly out: (text: string) => void;
  /** Writes bytes to standard output. */
  readonly outBytes: (bytes: Uint8Array) => void;
  /** Writes to standard error. */
  readonly err: (text: string) => void;
  /** Reads a file; the failure is a sentence without its subject, such as `there is no such file`. */
  readonly readFile: (path: string) => Promise<Result<Uint8Array, string>>;
  /** Reads standard input to its end. */
  readonly readInput: () => Promise<Result<Uint8Array, string>>;
  /**
   * Writes a file, whole or not at all. One that is there is replaced only if that is said; the failure is a sentence without its subject.
   */
  readonly writeFile: (path: string, bytes: Uint8Array, replace: boolean) => Promise<Result<undefined, string>>;
  /** Shows how far a long piece of work has come, over what was shown before; an empty text takes it away. Absent without a terminal. */
  readonly showProgress?: (text: string) => void;
  /** Path of a file that comes with the program, such as `demo-harness/firnlark-45.ohm.json`. */
  readonly ownFile: (path: string) => string;
  /** Version of the program. */
  readonly version: string;
  /** What the program runs on, such as `Node v22.1.0, linux x64`. */
  readonly system: string;
  /** Resolves when the person asks the program to stop. */
  readonly untilStopped: () => Promise<void>;
}
