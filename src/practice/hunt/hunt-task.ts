import type { Harness } from "../../model/index.ts";
import type { CodeProblem } from "../code/task-code.ts";
import type { Level } from "../drills/drill.ts";
import type { HiddenFault } from "./hidden-fault.ts";
import type { Signs } from "./signs.ts";

/** A fault hunt: what is hidden, and what shows of it. */
export interface HuntTask {
  /** The code, or the title of a written task. */
  readonly title: string;
  readonly build: string;
  readonly level: Level;
  /** What chance in the hunt is drawn from: floating readings, looks that show nothing. */
  readonly number: number;
  readonly hidden: HiddenFault;
  readonly signs: Signs;
  /** The complaint, a sentence each. */
  readonly complaint: readonly string[];
  readonly asksHypothesis: boolean;
}

/** A task with the machine it is played on. */
export interface ReadyHunt {
  readonly harness: Harness;
  readonly task: HuntTask;
}

/** Why there is no hunt. */
export type HuntProblem =
  | CodeProblem
  | {
      readonly code: "no-fault" | "wrong-fault" | "no-sign" | "not-told" | "not-a-hunt" | "unknown-build";
      readonly message: string;
    };
