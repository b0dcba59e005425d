// Floor 5: practice. Routing drills from the graph, fault hunts with a hidden fault, scores, classes.
export { practiceSchemaFiles as generatedFiles } from "../records/index.ts";
export { harnessCheck } from "./code/harness-check.ts";
export {
  CODE_ALPHABET,
  MOST_NUMBER,
  readTaskCode,
  writeTaskCode,
  type CodeProblem,
  type TaskId,
  type Topic,
} from "./code/task-code.ts";
export {
  DRILL_KINDS,
  type Drill,
  type DrillKind,
  type DrillScene,
  type Level,
  type PickedThing,
  type Trap,
} from "./drills/drill.ts";
export { DRILLS_IN_TASK, drillsOfCode, type DrillSet } from "./drills/drills-of-code.ts";
export { gradeDrill, type DrillGrade } from "./drills/grade-drill.ts";
export { drawDrills, makeDrill, type DrillWish } from "./drills/make-drill.ts";
export { BOX_DAYS, dueCards, repeatAfter, type RepetitionCard } from "./drills/repetition.ts";
export { causesAt, type HiddenFault, type PossibleCause } from "./hunt/hidden-fault.ts";
export { HINT_POINTS } from "./hunt/hints.ts";
export type { Damage, Display, HuntState, HuntStep, Seen } from "./hunt/hunt-state.ts";
export type { HuntProblem, HuntTask, ReadyHunt } from "./hunt/hunt-task.ts";
export { levelOfHunt, makeHunt } from "./hunt/make-hunt.ts";
export { leadOffers, type LeadOffer } from "./hunt/lead-offers.ts";
export { findSigns, isSilent, type FunctionSign, type Signs } from "./hunt/signs.ts";
export { foldHunt, startHunt, stepHunt } from "./hunt/step-hunt.ts";
export type { Left } from "./score/hunt-belief.ts";
export { eventsOfCheck } from "./score/check-events.ts";
export { planPath, type PlannerPath } from "./score/planner-path.ts";
export { randomPath } from "./score/random-path.ts";
export { scoreHunt, type HuntScore, type PathStep, type ScorePart } from "./score/score-hunt.ts";
export {
  classBySkill,
  classByTask,
  classCsv,
  skillLabel,
  type ClassRow,
  type ClassTable,
} from "./class/class-table.ts";
export {
  makeGrader,
  taskKey,
  titleOf,
  type GradedResult,
  type GradedWork,
  type Grader,
  type SkillPoints,
} from "./class/grade-result.ts";
export { againstList } from "./class/against-list.ts";
export {
  newResult,
  newTaskList,
  openTaskList,
  practiceMachine,
  type NewTaskList,
  type OpenedTasks,
  type TaskProblem,
} from "./class/task-list.ts";
