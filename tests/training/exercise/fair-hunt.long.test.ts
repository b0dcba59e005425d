import { startJob, type Check, type JobState } from "ohmward/diagnosis";
import {
  eventsOfCheck,
  makeExercise,
  planPath,
  startExercise,
  stepExercise,
  writeTaskCode,
  type ExerciseState,
  type ReadyExercise,
  type Seen,
} from "ohmward/training";
import { describe, expect, test } from "vitest";
import { demoDocument } from "../support/machines.ts";

const levels = [1, 2, 3] as const;

/** A hunt of a code. */
function drawn(number: number): ReadyExercise {
  const build = demoDocument.builds[number % demoDocument.builds.length]?.id ?? "";
  const code = writeTaskCode(demoDocument, { topic: "exercise", level: levels[number % 3] ?? 1, build, number });
  const made = makeExercise(demoDocument, { kind: "code", code });
  if (!made.ok) throw new Error(made.error.message);
  return made.value;
}

/** A job begun with everything the complaint says. */
function jobOf({ harness, task: { signs } }: ReadyExercise): JobState {
  const bad = signs.codes.length > 0 ? signs.deadModules : signs.functions.map(({ component }) => component);
  const job = startJob(harness, {
    id: "t",
    stamp: { at: "2000-01-01T00:00:00Z", writer: "t" },
    complaint: { words: "t", conditions: { presence: "always" }, recentWork: [] },
    codes: signs.codes.map((code) => ({ code, status: "active" as const })),
    symptoms: bad.slice(0, 3).map((item) => ({ item, is: "bad" as const })),
  });
  if (!job.ok) throw new Error(job.error.kind);
  return job.value;
}

function seenWith(exercise: ExerciseState, check: Check): Seen | undefined {
  return eventsOfCheck(exercise, check).reduce(stepExercise, exercise).steps.at(-1)?.seen;
}

/** Whether a check, done in the hunt, shows something else than in the same hunt with the fault mended. */
function tells({ harness, task }: ReadyExercise, check: Check): boolean {
  const exercise = startExercise(harness, task);
  const [now, sound] = [seenWith(exercise, check), seenWith({ ...exercise, isRepaired: true }, check)];
  if (now?.kind === "outcome" && sound?.kind === "outcome") return now.outcome !== sound.outcome;
  if (now?.kind !== "reading" || sound?.kind !== "reading") return false;
  const [a, b] = [now.display, sound.display];
  if (a.is !== b.is || a.value === undefined || b.value === undefined) return a.is !== b.is;
  return Math.abs(a.value - b.value) > 0.02 + 0.03 * Math.abs(b.value);
}

describe("a drawn hunt", () => {
  // Played in the hunt itself, not reckoned as the draw does it.
  test.each([0, 1, 5, 8, 14, 17, 23, 34])("of number %i has a permitted check that tells the fault", (number) => {
    const ready = drawn(number);
    const checks = [...jobOf(ready).model.checks.values()];
    expect(checks.some((check) => tells(ready, check))).toBe(true);
  });

  test.each([4, 14])("of number %i is solved by the planner", (number) => {
    expect(planPath(drawn(number)).exercise.isRepaired).toBe(true);
  });

  test.each([170, 272])("of number %i passes over two lines of the data bus swapped at a plug", (number) => {
    // The dice of both numbers come to this fault first.
    expect(drawn(number).task.hidden.candidate.id).not.toBe("cross-wired A2.X1:4 A2.X1:5");
  });
});

describe("a written hunt", () => {
  const problem = (fault: string, comesAndGoes = false): string => {
    const made = makeExercise(demoDocument, {
      kind: "written",
      title: "t",
      build: "base",
      fault,
      level: 1,
      comesAndGoes,
    });
    return made.ok ? "none" : `${made.error.code}: ${made.error.message}`;
  };

  test("is refused where no permitted check tells the fault, and it is said", () => {
    const refused = problem("cross-wired:A2.X1:4=A2.X1:5");
    expect(refused).toMatch(/^not-told: No permitted test finds this fault/u);
  });

  test("is made where a reading tells the fault, or where it shows when it is moved, however unlikely it is", () => {
    expect(problem("open:W81")).toBe("none");
    expect(problem("open:W42", true)).toBe("none");
    expect(problem("open:W121", true)).toBe("none");
  });
});
