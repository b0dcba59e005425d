import { seededRandom } from "ohmward/base";
import { startExercise, stepExercise, type ExerciseState, type ReadyExercise } from "ohmward/training";
import { jobOfTask } from "../../../src/training/score/exercise-belief.ts";
import { causeOf, repairAndProve, possibleCausesOf, takeCheck } from "../../../src/training/score/planner-path.ts";

/** Checks after which somebody who checks at random gives up checking. */
const MOST_CHECKS = 15;
/** Repairs tried then, the most likely first. */
const MOST_REPAIRS = 3;
/** Belief in one repair group at which checking ends. */
const ENOUGH = 0.99;

/**
 * A hunt by somebody who takes permitted checks at random and weighs what they show as well as the planner does: what the planner's score
 * is held against.
 *
 * @param ready The task on its machine.
 * @param number Another number, another choice of checks.
 */
export function randomPath({ harness, task }: ReadyExercise, number: number): ExerciseState {
  // Nobody has to be asked for a hypothesis: what this path suspects is known after each check.
  const start = startExercise(harness, { ...task, asksHypothesis: false });
  const first = jobOfTask(harness, task);
  if (!first.ok) return start;
  const random = seededRandom(number);
  let job = first.value;
  let exercise = start;
  const left = random.shuffle([...job.model.checks.keys()]);
  for (const key of left.slice(0, MOST_CHECKS)) {
    const [best] = possibleCausesOf(job);
    if (best && best.share >= ENOUGH) break;
    if (!job.model.checks.has(key)) continue;
    ({ exercise, job } = takeCheck(exercise, job, { key, isProving: false }));
  }
  for (const { label } of possibleCausesOf(job).slice(0, MOST_REPAIRS)) {
    const cause = causeOf(job, label);
    if (!cause) continue;
    const tried = repairAndProve(exercise, cause);
    exercise = tried.exercise;
    if (tried.isGone) break;
  }
  return stepExercise(exercise, { kind: "end" });
}
