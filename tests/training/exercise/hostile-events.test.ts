import { seededRandom } from "ohmward/base";
import { foldExercise, makeGrader, newResult, scoreExercise } from "ohmward/training";
import type { ExerciseEvent, TrainingTask } from "ohmward/job-records";
import { describe, expect, test } from "vitest";
import { demoDocument, demoIn } from "../support/machines.ts";
import { written } from "./support.ts";

const harness = demoIn("base");
const random = seededRandom(2026);
const ids: readonly string[] = [
  ...harness.nodes.map((node) => node.key),
  ...harness.fitted.wires.keys(),
  ...harness.fitted.connectors.keys(),
  ...harness.fitted.components.keys(),
  ...harness.document.segments.map(({ id }) => id),
  ...harness.document.adapters.map(({ id }) => id),
  ...harness.document.states.map(({ id }) => id),
];
const STRANGE = [" ", ":", "A1.X1:", ":1", "__proto__", "W89 ", "open W89", "A1.X1.harness:999", "\u0000", "G2+@W1"];
const THINGS = ["contact", "wire", "splice", "stud", "element", "component", "connector", "segment"] as const;
const METHODS = ["clamp", "tip", "clip", "in-line", "front-probe", "back-probe", "pierce", "tip-in-socket"] as const;

function anyId(): string {
  return random.integer(0, 9) === 0 ? random.pick(STRANGE) : random.pick(ids);
}

function anyLead(): Extract<ExerciseEvent, { kind: "measure" }>["red"] {
  const adapter = random.integer(0, 2) === 0 ? { adapter: anyId() } : {};
  return { point: anyId(), method: random.pick(METHODS), ...adapter };
}

/** Something that the file format allows, whether it makes sense or not. */
function anyEvent(): ExerciseEvent {
  const at = { type: random.pick(THINGS), id: anyId() };
  const makers: readonly (() => ExerciseEvent)[] = [
    () => ({ kind: "hypothesis", suspects: [at] }),
    () => ({ kind: "state", to: random.integer(0, 1) === 0 ? anyId() : random.pick(harness.document.states).id }),
    () => ({ kind: "open", connector: anyId() }),
    () => ({ kind: "close", connector: anyId() }),
    () => ({ kind: "fit", adapter: anyId(), at: anyId() }),
    () => ({ kind: "remove", adapter: anyId(), at: anyId() }),
    () => ({ kind: random.pick(["zero-leads", "prove-meter"] as const) }),
    () => ({
      kind: "measure",
      meter: random.pick(["dc-voltage", "resistance", "clamp", "test-lamp"] as const),
      red: anyLead(),
      ...(random.integer(0, 5) === 0 ? {} : { black: anyLead() }),
      ...(random.integer(0, 3) === 0 ? { range: random.pick([1e-9, 6, 60, 1e9]) } : {}),
      insists: random.integer(0, 1) === 0,
    }),
    () => ({ kind: random.pick(["visual-inspection", "wiggle", "terminal-drag", "substitute"] as const), at }),
    () => ({ kind: "hint", level: random.pick([1, 2, 3] as const) }),
    () => ({ kind: random.pick(["name", "repair"] as const), cause: anyId() }),
    () => ({ kind: "try", state: anyId() }),
  ];
  return random.pick(makers)();
}

describe("events that nobody would send on purpose", () => {
  const ready = written("blown:FB1.FL2");
  const task: TrainingTask = { kind: "written", title: "H", build: "base", fault: "blown:FB1.FL2", level: 1 };
  const grader = makeGrader(demoDocument);
  const planner = grader.plannerOf(ready, task);

  test.each([1, 2, 3, 4, 5])("are each answered, and scored, list %i", () => {
    const events = Array.from({ length: 150 }, anyEvent);
    const exercise = foldExercise(ready.harness, ready.task, events);
    expect(exercise.steps).toHaveLength(events.length);
    const score = scoreExercise(exercise, planner);
    expect(score.total).toBeGreaterThanOrEqual(0);
    expect(score.total).toBeLessThanOrEqual(100);
    expect(exercise.minutes).toBeGreaterThanOrEqual(0);
    const file = newResult(demoDocument, "X", [
      { kind: "exercise", task, asksHypothesis: false, events, points: score.total },
    ]);
    const graded = grader.grade(file);
    expect(graded.ok && graded.value.work[0]?.points).toBe(score.total);
  });
});
