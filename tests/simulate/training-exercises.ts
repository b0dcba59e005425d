import type { HarnessDocument } from "ohmward/harness-model";
import { makeExercise, writeTaskCode, type ReadyExercise } from "ohmward/training";
import { expectedFaults } from "./training-expected.ts";

/** A hunt with its name in tables. */
export interface NamedExercise {
  readonly id: string;
  readonly ready: ReadyExercise;
}

/** The faults that the demo machine lists, each in the first build it is for. */
export function listedExercises(document: HarnessDocument, expected: unknown): readonly NamedExercise[] {
  return expectedFaults(expected).map(({ id, build, fault, comesAndGoes }) => {
    const ready = makeExercise(document, { kind: "written", title: id, build, fault, comesAndGoes, level: 1 });
    if (!ready.ok) throw new Error(`${id}: ${ready.error.message}`);
    return { id, ready: ready.value };
  });
}

/** Hunts of codes in turn over builds and levels, no fault of a build twice. */
export function* drawnExercises(document: HarnessDocument, count: number): Generator<NamedExercise, void, void> {
  const met = new Set<string>();
  for (let number = 0; met.size < count && number < 20 * count; number++) {
    const build = document.builds[number % document.builds.length]?.id ?? "";
    const level = ([1, 2, 3] as const)[number % 3] ?? 1;
    const code = writeTaskCode(document, { topic: "exercise", level, build, number });
    const ready = makeExercise(document, { kind: "code", code });
    if (!ready.ok) throw new Error(`${code}: ${ready.error.message}`);
    const { hidden } = ready.value.task;
    const key = `${build} ${hidden.candidate.id} ${JSON.stringify(hidden.faults)}`;
    if (met.has(key)) continue;
    met.add(key);
    yield { id: code, ready: ready.value };
  }
}
