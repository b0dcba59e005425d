import { err, ok, type Result } from "../../base/index.ts";
import { machineOf, type Machine } from "../../workbench/index.ts";
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
  readTaskCode,
  scoreHunt,
  stepHunt,
  type Grader,
  type HuntProblem,
  type HuntState,
  type ReadyHunt,
} from "../../practice/index.ts";
import type { PracticeTask } from "../../records/index.ts";
import type {
  PracticeReply,
  PracticeRequest,
  SentHunt,
  SentScore,
  TaskPreview,
  WantedHunt,
} from "./practice-messages.ts";

/** The machine that is practised on, with what is worked out about it once. */
interface Opened {
  readonly machine: Machine;
  readonly grader: Grader;
}

interface OpenHunt {
  readonly key: string;
  readonly wanted: PracticeTask;
  readonly ready: ReadyHunt;
  readonly hunt: HuntState;
}

/** Answers the requests of the practice pages, one after the other. */
export class PracticeBench {
  #opened: Opened | undefined;
  #open: OpenHunt | undefined;

  answer(request: PracticeRequest): PracticeReply {
    const { kind } = request;
    switch (kind) {
      case "open":
        this.#opened = { machine: machineOf(request.document), grader: makeGrader(request.document) };
        this.#open = undefined;
        return { kind, check: harnessCheck(request.document) };
      case "hunt":
        return { kind, result: this.#openHunt(request) };
      case "step":
        if (this.#open) this.#open = { ...this.#open, hunt: stepHunt(this.#open.hunt, request.event) };
        return { kind, hunt: this.#open && sent(this.#open.hunt) };
      case "causes":
        return { kind, causes: this.#open ? causesAt(this.#open.ready.harness, request.item) : [] };
      case "plan":
        if (this.#open) this.#machine().grader.plannerOf(this.#open.ready, this.#open.wanted);
        return { kind };
      case "score":
        return { kind, result: this.#score(request) };
      case "preview":
        return { kind, result: this.#preview(request.task) };
      case "drills":
      case "repeat":
      case "write-list":
      case "open-list":
      case "grade":
        return this.#answerPlain(request);
    }
  }

  /** What needs no hunt to be open. */
  #answerPlain(
    request: Extract<PracticeRequest, { kind: "drills" | "repeat" | "write-list" | "open-list" | "grade" }>,
  ): PracticeReply {
    const { machine, grader } = this.#machine();
    const { document } = machine;
    switch (request.kind) {
      case "drills":
        return { kind: "drills", result: drillsOfCode(document, request.code) };
      case "repeat":
        return {
          kind: "repeat",
          drills: request.cards.flatMap(({ build, drill }) => {
            const harness = machine.harness(build);
            return (harness && makeDrill(harness, drill)) ?? [];
          }),
        };
      case "write-list":
        return { kind: "write-list", result: newTaskList(document, request.list) };
      case "open-list":
        return { kind: "open-list", result: openTaskList(document, request.text) };
      case "grade":
        return { kind: "grade", result: grader.grade(request.text) };
    }
  }

  #machine(): Opened {
    if (!this.#opened) throw new RangeError("Cannot answer: no machine was opened");
    return this.#opened;
  }

  #openHunt({ task, asksHypothesis, events }: WantedHunt): Result<SentHunt, HuntProblem> {
    const key = JSON.stringify([task, asksHypothesis]);
    if (this.#open?.key !== key) {
      const made = makeHunt(this.#machine().machine.document, task, asksHypothesis);
      if (!made.ok) return made;
      const { harness, task: hidden } = made.value;
      this.#open = { key, wanted: task, ready: made.value, hunt: foldHunt(harness, hidden, []) };
    }
    const { harness, task: hidden } = this.#open.ready;
    this.#open = { ...this.#open, hunt: foldHunt(harness, hidden, events) };
    return ok(sent(this.#open.hunt));
  }

  #score(wanted: WantedHunt): Result<SentScore, HuntProblem> {
    const opened = this.#openHunt(wanted);
    if (!opened.ok) return opened;
    if (!this.#open) throw new RangeError("Cannot score: no hunt is open");
    const { ready, hunt } = this.#open;
    const planner = this.#machine().grader.plannerOf(ready, wanted.task);
    const its = scoreHunt(planner.hunt, planner);
    const { label, repair } = ready.task.hidden.candidate;
    return ok({
      score: scoreHunt(hunt, planner),
      planner: { total: its.total, minutes: planner.hunt.minutes, isFound: planner.hunt.isMended, path: its.path },
      cause: { label, repair },
    });
  }

  #preview(task: PracticeTask): Result<TaskPreview, { readonly message: string }> {
    const { document } = this.#machine().machine;
    const code = task.kind === "code" ? readTaskCode(document, task.code) : undefined;
    if (code?.ok === false) return code;
    if (task.kind === "code" && code?.ok === true && code.value.topic !== "hunt") {
      const set = drillsOfCode(document, task.code);
      if (!set.ok) return set;
      if (set.value.drills.length === 0) return err({ message: "This machine has no such drills" });
      const { build, level } = set.value.task;
      return ok({
        build,
        level,
        told: set.value.drills.map(({ question }) => question),
        answers: set.value.drills.map(({ accepted }) => accepted.map((each) => each.join(", ")).join(" or ")),
      });
    }
    const hunt = makeHunt(document, task);
    if (!hunt.ok) return hunt;
    const { build, level, complaint, hidden } = hunt.value.task;
    const { label, repair } = hidden.candidate;
    return ok({ build, level, told: complaint, answers: [`${label}. What mends it: ${repair}`] });
  }
}

function sent({ harness: _, ...rest }: HuntState): SentHunt {
  return rest;
}
