import type { Result } from "../../base/index.ts";
import type { HarnessDocument } from "../../model/index.ts";
import type {
  Drill,
  DrillSet,
  GradedResult,
  HuntProblem,
  HuntScore,
  HuntState,
  NewTaskList,
  OpenedTasks,
  PathStep,
  PossibleCause,
  RepetitionCard,
  TaskProblem,
} from "../../practice/index.ts";
import type { HuntEvent, PracticeProblem, PracticeTask } from "../../records/index.ts";
import type { Item } from "../../trace/index.ts";
import type { SentFault } from "./sent-fault.ts";

/** A hunt as it is sent to the page: all but the machine, which the page has itself. */
export type SentHunt = Omit<HuntState, "harness">;

/** A hunt to be opened, with what was done in it already. */
export interface WantedHunt {
  readonly task: PracticeTask;
  readonly asksHypothesis: boolean;
  readonly events: readonly HuntEvent[];
}

/** The score of a hunt beside what the planner did with the same task. */
export interface SentScore {
  readonly score: HuntScore;
  readonly planner: {
    readonly total: number;
    readonly minutes: number;
    readonly isFound: boolean;
    readonly path: readonly PathStep[];
  };
  /** What was hidden, and what mends it. */
  readonly cause: { readonly label: string; readonly repair: string };
}

/** A task as its trainer sees it: what the trainee is told, and what is right. */
export interface TaskPreview {
  readonly build: string;
  readonly level: 1 | 2 | 3;
  readonly told: readonly string[];
  readonly answers: readonly string[];
}

/** What the practice worker is asked. It remembers the machine and the hunt that were opened last. */
export type PracticeRequest =
  | { readonly kind: "open"; readonly document: HarnessDocument }
  | ({ readonly kind: "hunt" } & WantedHunt)
  | { readonly kind: "step"; readonly event: HuntEvent }
  /** The ways in which a thing may be the cause. */
  | { readonly kind: "causes"; readonly item: Item }
  /** Let the planner go through the task of the open hunt beforehand. */
  | { readonly kind: "plan" }
  | ({ readonly kind: "score" } & WantedHunt)
  | { readonly kind: "drills"; readonly code: string }
  | { readonly kind: "repeat"; readonly cards: readonly RepetitionCard[] }
  | { readonly kind: "preview"; readonly task: PracticeTask }
  | { readonly kind: "write-list"; readonly list: NewTaskList }
  | { readonly kind: "open-list"; readonly text: string }
  | { readonly kind: "grade"; readonly text: string };

/** What comes back, under the kind of the request. */
export type PracticeReply =
  | { readonly kind: "open"; readonly check: string }
  | { readonly kind: "hunt"; readonly result: Result<SentHunt, HuntProblem> }
  | { readonly kind: "step"; readonly hunt: SentHunt | undefined }
  | { readonly kind: "causes"; readonly causes: readonly PossibleCause[] }
  | { readonly kind: "plan" }
  | { readonly kind: "score"; readonly result: Result<SentScore, HuntProblem> }
  | { readonly kind: "drills"; readonly result: Result<DrillSet, { readonly message: string }> }
  | { readonly kind: "repeat"; readonly drills: readonly Drill[] }
  | { readonly kind: "preview"; readonly result: Result<TaskPreview, { readonly message: string }> }
  | { readonly kind: "write-list"; readonly result: Result<string, readonly TaskProblem[]> }
  | { readonly kind: "open-list"; readonly result: Result<OpenedTasks, readonly PracticeProblem[]> }
  | { readonly kind: "grade"; readonly result: Result<GradedResult, readonly PracticeProblem[]> };

/** A request with the number its reply will have. */
export interface NumberedRequest {
  readonly number: number;
  readonly request: PracticeRequest;
}

/** A reply with the number of its request; or what went wrong in the program. */
export type NumberedReply =
  { readonly number: number; readonly reply: PracticeReply } | { readonly number: number; readonly failure: SentFault };
