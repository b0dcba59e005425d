import type { ExerciseState, ExerciseStep, PossibleCause } from "../../training/index.ts";
import type { Harness } from "../../harness-model/index.ts";
import type { ExerciseEvent, TrainingTask } from "../../job-records/index.ts";
import type { Item } from "../../connectivity/index.ts";
import type { SentExercise, SentScore } from "../../application/index.ts";
import { MachineClient } from "../worker/machine-client.ts";
import type { TrainingState } from "./training.svelte.ts";
import { EMPTY_LEAD, type LeadDraft } from "./training-leads.ts";
import { workOn } from "./training-work.ts";

type Measure = Extract<ExerciseEvent, { kind: "measure" }>;

/** A field that takes what is tapped on the drawing. */
export type ExerciseField = "red" | "black" | "item" | "connector" | "suspect" | "cause";

const NOTHING_CHOSEN = {
  red: undefined,
  black: undefined,
  item: undefined,
  connector: undefined,
  suspect: undefined,
  cause: undefined,
};

/** One fault-finding exercise on the page. Every step is kept on the device, and played again when the page is reopened. */
export class ExerciseSession {
  sent = $state.raw<SentExercise>();
  score = $state.raw<SentScore>();
  problem = $state("");
  isBusy = $state(true);

  // What is being put together and not yet done.
  meter = $state<Measure["meter"]>("dc-voltage");
  range = $state<number>();
  red = $state.raw<LeadDraft>(EMPTY_LEAD);
  black = $state.raw<LeadDraft>(EMPTY_LEAD);
  suspects = $state.raw<readonly Item[]>([]);
  /** Items chosen in the other fields. */
  chosen = $state.raw<Readonly<Record<ExerciseField, Item | undefined>>>(NOTHING_CHOSEN);
  causes = $state.raw<readonly PossibleCause[]>([]);
  /** The field the next tap on the drawing goes to. */
  field = $state<ExerciseField>("red");
  /** Insisted readings are sent as they were stopped. */
  stopped = $state.raw<Measure>();

  readonly task: TrainingTask;
  readonly asksHypothesis: boolean;
  readonly #desk: TrainingState;
  /** A worker of its own, in which the planner goes through the exercise while a person works on it. */
  #planner: MachineClient | undefined;
  #events: readonly ExerciseEvent[] = [];

  /** The machine in the build of the exercise. */
  harness = $state.raw<Harness>();
  readonly exercise = $derived<ExerciseState | undefined>(
    this.sent && this.harness ? { ...this.sent, harness: this.harness } : undefined,
  );
  readonly last = $derived<ExerciseStep | undefined>(this.sent?.steps.at(-1));

  constructor(ofPage: TrainingState, task: TrainingTask, asksHypothesis: boolean) {
    this.#desk = ofPage;
    this.task = task;
    const { started, done } = ofPage.progress;
    const work = workOn(started, task) ?? workOn(done, task);
    this.#events = work?.kind === "exercise" ? work.events : [];
    this.asksHypothesis = work?.kind === "exercise" ? work.asksHypothesis : asksHypothesis;
  }

  /** Opens the exercise where it was left, and lets the planner go through it meanwhile. */
  async load(): Promise<void> {
    const { task, asksHypothesis } = this;
    const wanted = { task, asksHypothesis, events: this.#events };
    const result = await this.#desk.ask("exercise", wanted);
    this.isBusy = false;
    if (!result.ok) {
      this.problem = result.error.message;
      return;
    }
    this.harness = this.#desk.machine?.harness(result.value.task.build);
    this.sent = result.value;
    this.suspects = this.sent.suspects ?? [];
    const { machine } = this.#desk;
    if (machine) {
      const { document } = machine;
      this.#planner = new MachineClient();
      // Where the page is left before the planner is through, nobody waits for it; a failure comes up again with the score.
      this.#planner.ask("exercise", { ...wanted, events: [] }, { document }).catch(() => undefined);
      this.#planner.ask("exercise-plan", undefined, { document }).catch(() => undefined);
    }
    if (this.sent.isEnded) await this.#showScore();
  }

  /** Ends the work in the background; nothing is lost. */
  close(): void {
    this.#planner?.close();
  }

  /** Does something. One step at a time: what comes while another is under way is passed over. */
  async act(event: ExerciseEvent): Promise<void> {
    if (this.isBusy || this.sent?.isEnded !== false) return;
    this.isBusy = true;
    try {
      const exercise = (await this.#desk.ask("exercise-step", event)) ?? (await this.#reopened(event));
      if (!exercise) return;
      this.sent = exercise;
      this.#events = exercise.steps.map((step) => step.event);
      const seen = exercise.steps.at(-1)?.seen;
      this.stopped = seen?.kind === "stopped" && seen.mayInsist && event.kind === "measure" ? event : undefined;
      this.#keep();
      if (exercise.isEnded) await this.#showScore();
    } catch (fault) {
      this.#desk.fail(fault);
    } finally {
      this.isBusy = false;
    }
  }

  choose(field: ExerciseField, item: Item): void {
    this.chosen = { ...this.chosen, [field]: item };
    if (field === "cause") void this.#findCauses(item);
  }

  clear(field: ExerciseField): void {
    this.chosen = { ...this.chosen, [field]: undefined };
  }

  /** Starts the same exercise again from nothing; what was done stays among the results. */
  async again(): Promise<void> {
    this.#events = [];
    this.score = undefined;
    this.isBusy = true;
    this.red = EMPTY_LEAD;
    this.black = EMPTY_LEAD;
    this.suspects = [];
    this.causes = [];
    this.chosen = NOTHING_CHOSEN;
    const { task, asksHypothesis } = this;
    const result = await this.#desk.ask("exercise", { task, asksHypothesis, events: [] });
    this.isBusy = false;
    if (result.ok) this.sent = result.value;
  }

  /** The exercise with one more event, where the worker was started again and knows it no more. */
  async #reopened(event: ExerciseEvent): Promise<SentExercise | undefined> {
    const { task, asksHypothesis } = this;
    const result = await this.#desk.ask("exercise", { task, asksHypothesis, events: [...this.#events, event] });
    return result.ok ? result.value : undefined;
  }

  async #findCauses(item: Item): Promise<void> {
    const causes = await this.#desk.ask("exercise-causes", item);
    if (this.chosen.cause?.id === item.id) this.causes = causes;
  }

  #keep(points = 0): void {
    const { task, asksHypothesis } = this;
    const work = { kind: "exercise" as const, task, asksHypothesis, events: [...this.#events], points };
    if (this.score) this.#desk.keepDone(work);
    else this.#desk.keepStarted(work);
  }

  async #showScore(): Promise<void> {
    const { task, asksHypothesis } = this;
    const document = this.#desk.machine?.document;
    if (!this.#planner || !document) return;
    const wanted = { task, asksHypothesis, events: this.#events };
    const result = await this.#planner.ask("exercise-score", wanted, { document });
    if (!result.ok) return;
    const isNew = workOn(this.#desk.progress.started, task) !== undefined;
    this.score = result.value;
    if (isNew) this.#keep(result.value.score.total);
  }
}
