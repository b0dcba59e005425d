import type { SeededRandom } from "ohmward/base";
import {
  causesAt,
  drillsOfCode,
  DRILL_KINDS,
  gradeDrill,
  leadOffers,
  makeExercise,
  newResult,
  planPath,
  scoreExercise,
  startExercise,
  stepExercise,
  type ReadyExercise,
} from "ohmward/training";
import { runReading } from "ohmward/import-export";
import { EXERCISE_ITEM_TYPES, ExerciseEvent, type TrainingTask } from "ohmward/job-records";
import {
  gradeFiles,
  gradesReport,
  makeTasks,
  TasksReport,
  tasksReport,
  writeGradesReport,
  writeTasksReport,
  type Machine,
} from "ohmward/application";
import { checked } from "./checked.ts";
import { some, type Names } from "./names.ts";
import type { Swept, Task } from "./task.ts";

const LEVELS = [1, 2, 3] as const;

/** Task lists with drills, drawn hunts and written faults: told with their answers, done, scored and graded. */
export function* trainingTasks(swept: Swept): Generator<Task> {
  const { machine, build, names, random, most } = swept;
  for (const level of some(LEVELS, most.exercises, random)) {
    const kinds = [random.pick(DRILL_KINDS)];
    const wish = { title: "S", asksHypothesis: false, build, level, first: random.integer(0, 500), kinds, written: [] };
    const fault = `open:${random.pick(names.all)}`;
    const written: TrainingTask = { kind: "written", title: "W", build, fault: fault.slice(0, 600), level };
    yield { name: `drills ${JSON.stringify(wish)}`, run: () => doList(swept, { ...wish, drills: 2, exercises: 0 }) };
    yield { name: `hunt ${JSON.stringify(wish)}`, run: () => doList(swept, { ...wish, drills: 0, exercises: 1 }) };
    yield { name: `hunt ${JSON.stringify(written)}`, run: () => void doExercise(machine, written, swept) };
  }
}

function doList(swept: Swept, wish: Parameters<typeof makeTasks>[1]): void {
  const { machine } = swept;
  const made = makeTasks(machine, wish);
  if (!made.ok) return checked({ kind: "practice-tasks", file: "t", problems: made.error }, TasksReport);
  const { text, list } = made.value;
  const report = tasksReport(machine, { name: "t", text }, true);
  checked(report, TasksReport, writeTasksReport(report));
  const work = list.tasks.flatMap((task): Parameters<typeof newResult>[2][number][] => {
    if (wish.exercises > 0) return doExercise(machine, task, swept);
    const set = task.kind === "code" ? drillsOfCode(machine.document, task.code) : undefined;
    if (!set?.ok) return [];
    const answers = set.value.drills.map((drill) => {
      const [accepted = []] = drill.accepted;
      if (!gradeDrill(drill, accepted).isRight) throw new Error(`An accepted answer of ${drill.id} is not right`);
      gradeDrill(drill, [...drill.pick.choices, swept.random.pick(swept.names.all)]);
      return { drill: drill.id, picked: [...accepted] };
    });
    return [{ kind: "drills", task, answers, points: 100 }];
  });
  const result = newResult(machine.document, "Trainee", work);
  const grading = runReading(
    gradeFiles(machine, [
      { name: "t", text },
      { name: "r", text: result },
    ]),
  );
  if (grading) writeGradesReport(gradesReport(machine.document.about.machine, grading));
}

function doExercise(
  machine: Machine,
  task: TrainingTask,
  { names, random }: Swept,
): Parameters<typeof newResult>[2][number][] {
  const made = makeExercise(machine.document, task);
  if (!made.ok) return [];
  const { harness, task: hidden } = made.value;
  const events = Array.from({ length: 8 }, () => eventOf(made.value, names, random));
  const end: ExerciseEvent[] = [
    { kind: "name", cause: hidden.hidden.candidate.id },
    { kind: "repair", cause: hidden.hidden.candidate.id },
    { kind: "end" },
  ];
  const exercise = [...events, ...end].reduce(stepExercise, startExercise(harness, hidden));
  causesAt(harness, hidden.hidden.candidate.item);
  const score = scoreExercise(exercise, planPath(made.value));
  if (!Number.isFinite(score.total)) throw new Error(`The score is ${score.total}`);
  return [{ kind: "exercise", task, asksHypothesis: false, events: [...events, ...end], points: score.total }];
}

function eventOf({ harness, task }: ReadyExercise, names: Names, random: SeededRandom): ExerciseEvent {
  const id = (): string => random.pick(names.all.filter((name) => name.length > 0 && name.length <= 130));
  const at = () => ({ type: random.pick(EXERCISE_ITEM_TYPES), id: id() });
  const lead = () => {
    const point = random.pick([...some(names.points, 1, random), id()]);
    const offers = leadOffers(startExercise(harness, task), point);
    return offers.length > 0 ? random.pick(offers).lead : { point, method: "tip" as const };
  };
  const state = random.pick(names.states) ?? "no state";
  const event: ExerciseEvent = random.pick<() => ExerciseEvent>([
    () => ({ kind: "state", to: state }),
    () => ({ kind: "open", connector: id() }),
    () => ({ kind: "close", connector: id() }),
    () => ({ kind: "prove-meter" }),
    () => ({
      kind: "measure",
      meter: random.pick(["dc-voltage", "resistance"]),
      red: lead(),
      black: lead(),
      insists: true,
    }),
    () => ({ kind: "measure", meter: random.pick(["clamp", "test-lamp"]), red: lead(), range: 1e9 }),
    () => ({ kind: random.pick(["visual-inspection", "wiggle", "terminal-drag", "substitute"]), at: at() }),
    () => ({ kind: "hint", level: random.pick(LEVELS) }),
    () => ({ kind: "try", state }),
    () => ({ kind: "hypothesis", suspects: [at()] }),
  ])();
  return ExerciseEvent.parse(event);
}
