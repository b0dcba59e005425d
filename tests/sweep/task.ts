import type { SeededRandom } from "ohmward/base";
import type { Machine } from "ohmward/application";
import type { Names } from "./names.ts";

/** One thing that is asked of a machine or done with it. `run` throws if it goes wrong. */
export interface Task {
  readonly name: string;
  readonly run: () => void;
}

/** What is asked in a sweep. */
export interface Swept {
  readonly machine: Machine;
  readonly build: string;
  readonly names: Names;
  readonly random: SeededRandom;
  /** Most things asked about with each question, most jobs, most exercises of each sort. */
  readonly most: { readonly questions: number; readonly jobs: number; readonly exercises: number };
}
