import { seededRandom } from "ohmward/base";
import { openMachine, type Machine } from "ohmward/application";
import { jobTasks } from "./job-tasks.ts";
import type { SweptMachine } from "./machines.ts";
import { mutantOf } from "./mutant.ts";
import { namesOf } from "./names.ts";
import { trainingTasks } from "./training-tasks.ts";
import { exportTasks, questionTasks } from "./question-tasks.ts";
import type { Swept, Task } from "./task.ts";

/** What to sweep: a machine, which mutant of it (0 is the machine itself), and how much is asked. */
export interface SweepCase {
  readonly of: SweptMachine;
  readonly mutant: number;
  /** Where the drawing of questions begins. */
  readonly seed: number;
  readonly most: Swept["most"];
  /** The builds that are asked; all where absent. */
  readonly builds?: number;
  /** What is asked; all where absent. */
  readonly only?: "questions" | "all";
}

/** What went wrong, so that it can be played again. */
export interface SweepFailure {
  readonly id: string;
  readonly task: string;
  readonly error: Error;
}

/** What came of a case. */
export interface SweepResult {
  readonly tasks: number;
  readonly failures: readonly SweepFailure[];
  /** False where no mutant that opens was found. */
  readonly isOpened: boolean;
  readonly slowest: { readonly task: string; readonly seconds: number };
}

/** The name of a case: the same one again with `npm run sweep -- --only <name>`. */
export function caseId({ of, mutant, seed }: SweepCase): string {
  return `${of.name}#${mutant}@${seed}`;
}

/**
 * Asks a machine, or a mutant of it, everything there is to ask, and goes on after what goes wrong.
 *
 * @param swept The case.
 * @param until Asked before every task; true ends the case.
 */
export function sweepMachine(swept: SweepCase, until: () => boolean = () => false): SweepResult {
  const id = caseId(swept);
  const machine = machineOfCase(swept);
  const failures: SweepFailure[] = [];
  let tasks = 0;
  let slowest = { task: "", seconds: 0 };
  if (!machine) return { tasks, failures, isOpened: false, slowest };
  for (const { name, run } of tasksOf(machine, swept)) {
    if (until()) break;
    const start = performance.now();
    try {
      run();
    } catch (thrown) {
      const error = thrown instanceof Error ? thrown : new Error(String(thrown));
      failures.push({ id, task: name, error });
    }
    const seconds = (performance.now() - start) / 1000;
    if (seconds > slowest.seconds) slowest = { task: name, seconds };
    tasks++;
  }
  return { tasks, failures, isOpened: true, slowest };
}

/** The machine of a case; undefined where no mutant that opens was found. */
export function machineOfCase({ of, mutant }: SweepCase): Machine | undefined {
  const text = JSON.stringify(of.document);
  if (mutant > 0) return mutantOf(text, mutant)?.machine;
  const opened = openMachine(text);
  return opened.ok ? opened.value : undefined;
}

function* tasksOf(
  machine: Machine,
  { seed, mutant, most, builds = Infinity, only = "all" }: SweepCase,
): Generator<Task> {
  const random = seededRandom(seed * 1_000_003 + mutant);
  const names = namesOf(machine.document);
  for (const { id: build } of machine.document.builds.slice(0, builds)) {
    const swept = { machine, build, names, random, most };
    yield* questionTasks(swept);
    if (only === "questions") continue;
    yield* exportTasks(swept);
    yield* jobTasks(swept);
    yield* trainingTasks(swept);
  }
}

/** A failure with what it takes to play it again. */
export function failureText({ id, task, error }: SweepFailure): string {
  return `npm run sweep -- --only ${JSON.stringify(id)}\n  ${task.slice(0, 400)}\n  ${(error.stack ?? error.message).split("\n").slice(0, 6).join("\n  ")}`;
}
