// Floor 5: practice. Routing drills from the graph, fault hunts with a hidden fault, scores, classes.
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
