import { ok, type Result } from "../../base/index.ts";
import {
  causesAt,
  drillsOfCode,
  foldHunt,
  harnessCheck,
  makeDrill,
  makeGrader,
  makeHunt,
  newTaskList,
  openTaskList,
  scoreHunt,
  stepHunt,
  type Drill,
  type DrillSet,
  type GradedResult,
  type Grader,
  type HuntProblem,
  type HuntScore,
  type HuntState,
  type NewTaskList,
  type OpenedTasks,
  type PathStep,
  type PossibleCause,
  type ReadyHunt,
  type RepetitionCard,
  type TaskProblem,
} from "../../practice/index.ts";
import type { HuntEvent, PracticeProblem, PracticeTask } from "../../records/index.ts";
import type { Item } from "../../trace/index.ts";
import type { Machine } from "../open-machine.ts";
import type { TaskContent } from "../practice/tasks-report.ts";

/** A call: what is asked, and what is answered. Both are plain data. */
export interface Call<Request, Reply> {
  readonly request: Request;
  readonly reply: Reply;
}

/** A hunt as it is sent: all but the machine, which whoever asks has. */
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

/** What is asked of practice. The hunt that was opened last is remembered. */
export interface PracticeCalls {
  /** The fingerprint of the harness data. */
  readonly "practice-open": Call<undefined, string>;
  readonly hunt: Call<WantedHunt, Result<SentHunt, HuntProblem>>;
  readonly "hunt-step": Call<HuntEvent, SentHunt | undefined>;
  /** The ways in which an item may be the cause. */
  readonly "hunt-causes": Call<Item, readonly PossibleCause[]>;
  /** Lets the planner go through the task of the open hunt beforehand. */
  readonly "hunt-plan": Call<undefined, undefined>;
  readonly "hunt-score": Call<WantedHunt, Result<SentScore, HuntProblem>>;
  readonly drills: Call<string, Result<DrillSet, { readonly message: string }>>;
  readonly "drills-again": Call<readonly RepetitionCard[], readonly Drill[]>;
  readonly "task-preview": Call<PracticeTask, Result<TaskContent, { readonly message: string }>>;
  readonly "list-write": Call<NewTaskList, Result<string, readonly TaskProblem[]>>;
  readonly "list-open": Call<string, Result<OpenedTasks, readonly PracticeProblem[]>>;
  readonly grade: Call<string, Result<GradedResult, readonly PracticeProblem[]>>;
}

interface OpenHunt {
  readonly key: string;
  readonly wanted: PracticeTask;
  readonly ready: ReadyHunt;
  readonly hunt: HuntState;
}

/** Practice on one machine: hunts, drills, lists, grades. */
export class PracticeService {
  readonly #machine: Machine;
  readonly #grader: Grader;
  #open: OpenHunt | undefined;

  constructor(machine: Machine) {
    this.#machine = machine;
    this.#grader = makeGrader(machine.document);
  }

  check(): string {
    return harnessCheck(this.#machine.document);
  }

  step(event: HuntEvent): SentHunt | undefined {
    if (this.#open) this.#open = { ...this.#open, hunt: stepHunt(this.#open.hunt, event) };
    return this.#open && sent(this.#open.hunt);
  }

  causes(item: Item): readonly PossibleCause[] {
    return this.#open ? causesAt(this.#open.ready.harness, item) : [];
  }

  plan(): undefined {
    if (this.#open) this.#grader.plannerOf(this.#open.ready, this.#open.wanted);
    return undefined;
  }

  drills(code: string): Result<DrillSet, { readonly message: string }> {
    return drillsOfCode(this.#machine.document, code);
  }

  again(cards: readonly RepetitionCard[]): readonly Drill[] {
    return cards.flatMap(({ build, drill }) => {
      const harness = this.#machine.harness(build);
      return (harness && makeDrill(harness, drill)) ?? [];
    });
  }

  writeList(list: NewTaskList): Result<string, readonly TaskProblem[]> {
    return newTaskList(this.#machine.document, list);
  }

  openList(text: string): Result<OpenedTasks, readonly PracticeProblem[]> {
    return openTaskList(this.#machine.document, text);
  }

  grade(text: string): Result<GradedResult, readonly PracticeProblem[]> {
    return this.#grader.grade(text);
  }

  openHunt({ task, asksHypothesis, events }: WantedHunt): Result<SentHunt, HuntProblem> {
    const key = JSON.stringify([task, asksHypothesis]);
    if (this.#open?.key !== key) {
      const made = makeHunt(this.#machine.document, task, asksHypothesis);
      if (!made.ok) return made;
      const { harness, task: hidden } = made.value;
      this.#open = { key, wanted: task, ready: made.value, hunt: foldHunt(harness, hidden, []) };
    }
    const { harness, task: hidden } = this.#open.ready;
    this.#open = { ...this.#open, hunt: foldHunt(harness, hidden, events) };
    return ok(sent(this.#open.hunt));
  }

  score(wanted: WantedHunt): Result<SentScore, HuntProblem> {
    const opened = this.openHunt(wanted);
    if (!opened.ok) return opened;
    if (!this.#open) throw new RangeError("Cannot score: no hunt is open");
    const { ready, hunt } = this.#open;
    const planner = this.#grader.plannerOf(ready, wanted.task);
    const its = scoreHunt(planner.hunt, planner);
    const { label, repair } = ready.task.hidden.candidate;
    return ok({
      score: scoreHunt(hunt, planner),
      planner: { total: its.total, minutes: planner.hunt.minutes, isFound: planner.hunt.isRepaired, path: its.path },
      cause: { label, repair },
    });
  }
}

function sent({ harness: _, ...rest }: HuntState): SentHunt {
  return rest;
}
