// Floor 5: practice. Routing drills from the graph, fault hunts with a hidden fault, scores, classes.
export {
  CODE_ALPHABET,
  harnessCheck,
  MOST_NUMBER,
  readTaskCode,
  writeTaskCode,
  type TaskId,
  type Topic,
} from "./code/task-code.ts";
export {
  DRILL_KINDS,
  gradeDrill,
  type Drill,
  type DrillGrade,
  type DrillKind,
  type DrillContext,
  type Level,
} from "./drills/drill.ts";
export { drawDrills, drillsOfCode, makeDrill, type DrillSet } from "./drills/make-drill.ts";
export { BOX_DAYS, dueCards, repeatAfter, type RepetitionCard } from "./drills/repetition.ts";
export { causesAt, type PossibleCause } from "./exercise/inserted-fault.ts";
export { foldExercise, HINT_POINTS, startExercise, stepExercise } from "./exercise/step-exercise.ts";
export type { ExerciseProblem, ExerciseState, ExerciseStep, ReadyExercise, Seen } from "./exercise/exercise-state.ts";
export { makeExercise } from "./exercise/make-exercise.ts";
export { leadOffers, type LeadOffer } from "./exercise/lead-offers.ts";
export { findSigns } from "./exercise/signs.ts";
export { eventsOfCheck } from "./score/check-events.ts";
export { planPath, type PlannerPath } from "./score/planner-path.ts";
export { scoreExercise, type ExerciseScore, type PathStep } from "./score/score-exercise.ts";
export { againstList, classBySkill, classByTask, classCsv, skillLabel, type ClassTable } from "./class/class-table.ts";
export { makeGrader, titleOf, type GradedResult, type GradedWork, type Grader } from "./class/grade-result.ts";
export {
  newResult,
  newTaskList,
  openTaskList,
  type NewTaskList,
  type OpenedTasks,
  type TaskProblem,
} from "./class/task-list.ts";
