import { err, ok, type Result } from "../../base/index.ts";
import { fitBuild, type HarnessDocument } from "../../model/index.ts";
import { randomOfTask, readTaskCode, type CodeProblem, type TaskId } from "../code/task-code.ts";
import { DRILL_KINDS, type Drill } from "./drill.ts";
import { drawDrills } from "./make-drill.ts";

/** Drills in a task. */
export const DRILLS_IN_TASK = 10;

/** A set of drills. */
export interface DrillSet {
  readonly task: TaskId;
  readonly drills: readonly Drill[];
}

/**
 * Makes the drills of a task code: the same on every machine.
 *
 * @param document The harness document.
 * @param code The code.
 * @returns The drills, in the order they are asked; or what is wrong with the code. A code of a fault hunt is `unknown-topic` here.
 */
export function drillsOfCode(document: HarnessDocument, code: string): Result<DrillSet, CodeProblem> {
  const read = readTaskCode(document, code);
  if (!read.ok) return read;
  const task = read.value;
  const harness = fitBuild(document, task.build);
  if (!harness || task.topic === "hunt")
    return err({ code: "unknown-topic", message: "The code is for a fault hunt, not for drills" });
  const kinds = task.topic === "drills" ? DRILL_KINDS : [task.topic];
  return ok({
    task,
    drills: drawDrills(harness, { kinds, level: task.level, count: DRILLS_IN_TASK }, randomOfTask(task)),
  });
}
