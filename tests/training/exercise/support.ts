import {
  makeExercise,
  startExercise,
  stepExercise,
  type ExerciseState,
  type ReadyExercise,
  type Seen,
} from "ohmward/training";
import type { ExerciseEvent } from "ohmward/job-records";
import { demoDocument } from "../support/machines.ts";

/** A hunt for a fault written by a trainer. */
export function written(
  fault: string,
  options: { build?: string; comesAndGoes?: boolean; asks?: boolean } = {},
): ReadyExercise {
  const { build = "base", comesAndGoes = false, asks = false } = options;
  const made = makeExercise(
    demoDocument,
    { kind: "written", title: fault, build, fault, comesAndGoes, level: 1 },
    asks,
  );
  if (!made.ok) throw new Error(made.error.message);
  return made.value;
}

/** The hunt after some events. */
export function after({ harness, task }: ReadyExercise, events: readonly ExerciseEvent[]): ExerciseState {
  return events.reduce(stepExercise, startExercise(harness, task));
}

/** What came of the last event. */
export function lastSeen(exercise: ExerciseState): Seen {
  const seen = exercise.steps.at(-1)?.seen;
  if (!seen) throw new Error("Nothing was done");
  return seen;
}

/** Key on, engine off. */
export const KEY_ON: ExerciseEvent = { kind: "state", to: "KOEO" };

/** Volts between two studs. */
export function volts(red: string, black: string, range?: number): ExerciseEvent {
  return {
    kind: "measure",
    meter: "dc-voltage",
    red: { point: red, method: "tip" },
    black: { point: black, method: "tip" },
    ...(range === undefined ? {} : { range }),
  };
}
