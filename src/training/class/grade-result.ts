import { err, keptIn, ok, type Result } from "../../base/index.ts";
import type { HarnessDocument } from "../../harness-model/index.ts";
import {
  readTrainingResult,
  type TrainingProblem,
  type TrainingResult,
  type TrainingTask,
  type TrainingWork,
} from "../../job-records/index.ts";
import { harnessCheck } from "../code/task-code.ts";
import { gradeDrill } from "../drills/drill.ts";
import { drillsOfCode } from "../drills/make-drill.ts";
import type { ReadyExercise } from "../exercise/exercise-state.ts";
import { makeExercise } from "../exercise/make-exercise.ts";
import { foldExercise } from "../exercise/step-exercise.ts";
import { planPath, type PlannerPath } from "../score/planner-path.ts";
import { scoreExercise } from "../score/score-exercise.ts";

/** One task of a result, worked out again from what was done. */
export interface GradedWork {
  readonly task: TrainingTask;
  readonly title: string;
  readonly kind: "drills" | "exercise";
  /** Whether a hypothesis was asked for before each action of a hunt. */
  readonly asksHypothesis: boolean;
  /** 0 to 100; undefined where the exercise cannot be made with the data available. */
  readonly points: number | undefined;
  /** Points as the file has them. */
  readonly claimed: number;
  /** Whether they are those that were worked out again, as far as that can be told. */
  readonly isAsClaimed: boolean;
  /** Points in each skill: a kind of drill, or a part of the score of hunts. */
  readonly skills: readonly { readonly skill: string; readonly points: number; readonly of: number }[];
  /** Two damaging probes. */
  readonly isFailed: boolean;
  readonly remarks: readonly string[];
}

/** A result file, worked out again. */
export interface GradedResult {
  readonly name: string;
  readonly work: readonly GradedWork[];
  /** False where the checksum does not fit: the file was edited or cut. */
  readonly isIntact: boolean;
  /** False where it was made with other harness data; nothing is graded then. */
  readonly isSameHarness: boolean;
  readonly remarks: readonly string[];
}

/** Grades result files of one harness; remembers the planner's path of each task, which takes seconds to find. */
export interface Grader {
  readonly grade: (text: string) => Result<GradedResult, readonly TrainingProblem[]>;
  /** The planner's path of a hunt. */
  readonly plannerOf: (ready: ReadyExercise, task: TrainingTask) => PlannerPath;
}

/** Points that claimed and graded may differ by before it is remarked on. */
const ROUNDING = 0.11;

/** Makes a grader. Results are never taken as claimed: answers are graded and hunts played again from their events. */
export function makeGrader(document: HarnessDocument): Grader {
  const paths = new Map<string, PlannerPath>();
  const plannerOf: Grader["plannerOf"] = (ready, task) => {
    const key = JSON.stringify(task);
    return keptIn(paths, key, () => planPath(ready));
  };
  return {
    plannerOf,
    grade: (text) => {
      const read = readTrainingResult(text);
      if (!read.ok) return err(read.error);
      return ok(gradeContent(document, read.value, plannerOf));
    },
  };
}

function gradeContent(
  document: HarnessDocument,
  { content, isIntact }: { readonly content: TrainingResult; readonly isIntact: boolean },
  plannerOf: Grader["plannerOf"],
): GradedResult {
  const isSameHarness = content.machine.harnessCheck === harnessCheck(document);
  const remarks = [
    ...(isIntact
      ? []
      : [
          "The checksum does not fit: the file was edited after it was written. The points are calculated from the recorded actions.",
        ]),
    ...(isSameHarness
      ? []
      : [
          `The file was made with other harness data (${content.machine.title}, fingerprint ${content.machine.harnessCheck}): it is not graded.`,
        ]),
  ];
  const work = content.work.map((each): GradedWork => {
    if (!isSameHarness) return ungraded(each, "Made with other harness data.");
    const graded = each.kind === "drills" ? gradeDrills(document, each) : gradeExercise(document, each, plannerOf);
    if (graded.points === undefined || Math.abs(graded.points - each.points) <= ROUNDING) return graded;
    const text = `The file has ${each.points} points; calculated again: ${graded.points} points.`;
    return { ...graded, isAsClaimed: false, remarks: [...graded.remarks, text] };
  });
  return { name: content.name, work, isIntact, isSameHarness, remarks };
}

/** What a task is called in tables; a task without a title goes by its code or build. */
export function titleOf(task: TrainingTask): string {
  const own = task.kind === "code" ? task.code : `Written, variant ${task.build}`;
  return task.title === undefined || task.title.trim() === "" ? own : task.title;
}

/** What makes a task the same task whatever it is called: its code however it is typed, or its fault, build and complaint. */
export function taskKey(task: TrainingTask): string {
  if (task.kind === "code") return `code ${task.code.toUpperCase().replace(/[\s-]/gu, "")}`;
  const { build, fault, comesAndGoes = false, words = "", level } = task;
  return `written ${JSON.stringify([build, fault, comesAndGoes, words, level])}`;
}

function ungraded(work: TrainingWork, why: string): GradedWork {
  const { task, kind, points: claimed } = work;
  const asksHypothesis = kind === "exercise" && work.asksHypothesis;
  const head = { task, title: titleOf(task), kind, asksHypothesis, points: undefined, claimed };
  return { ...head, isAsClaimed: true, skills: [], isFailed: false, remarks: [why] };
}

function gradeDrills(document: HarnessDocument, work: Extract<TrainingWork, { kind: "drills" }>): GradedWork {
  if (work.task.kind !== "code") return ungraded(work, "Drills need an exercise code.");
  const set = drillsOfCode(document, work.task.code);
  if (!set.ok) return ungraded(work, set.error.message);
  const answers = new Map(work.answers.map(({ drill, picked }) => [drill, picked]));
  const skills = new Map<string, { points: number; of: number }>();
  for (const drill of set.value.drills) {
    const entry = skills.get(drill.kind) ?? { points: 0, of: 0 };
    const isRight = gradeDrill(drill, answers.get(drill.id) ?? []).isRight;
    skills.set(drill.kind, { points: entry.points + (isRight ? 1 : 0), of: entry.of + 1 });
  }
  const ids = new Set(set.value.drills.map((drill) => drill.id));
  const strange = work.answers.filter(({ drill }) => !ids.has(drill)).length;
  const right = [...skills.values()].reduce((sum, { points }) => sum + points, 0);
  return {
    ...ungraded(work, ""),
    points: Math.round((1000 * right) / Math.max(1, set.value.drills.length)) / 10,
    skills: [...skills].map(([skill, { points, of }]) => ({ skill, points, of })),
    remarks: strange > 0 ? [`${strange} answers belong to no drill of this exercise and do not count.`] : [],
  };
}

function gradeExercise(
  document: HarnessDocument,
  work: Extract<TrainingWork, { kind: "exercise" }>,
  plannerOf: Grader["plannerOf"],
): GradedWork {
  const ready = makeExercise(document, work.task, work.asksHypothesis);
  if (!ready.ok) return ungraded(work, ready.error.message);
  const { harness, task } = ready.value;
  const exercise = foldExercise(harness, task, work.events);
  const score = scoreExercise(exercise, plannerOf(ready.value, work.task));
  return {
    ...ungraded(work, ""),
    points: score.total,
    skills: score.parts.map(({ id, points, of }) => ({ skill: id, points, of })),
    isFailed: score.isFailed,
    remarks: [
      ...(exercise.isEnded ? [] : ["The exercise was not ended."]),
      ...(score.isFailed ? ["Failed: two damaging probes."] : []),
    ],
  };
}
