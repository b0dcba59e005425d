import type { TaskList } from "../../records/index.ts";
import { taskKey, titleOf, type GradedResult, type GradedWork } from "./grade-result.ts";

/**
 * Holds a graded result against the tasks that were handed out: what was not done is said, and what was not asked is kept but not counted.
 *
 * @param list The task list.
 * @param result The result as graded.
 * @returns The result with remarks; work under the titles of the list, work that is not on it without points and skills.
 */
export function againstList(list: TaskList, result: GradedResult): GradedResult {
  const titles = new Map(list.tasks.map((task) => [taskKey(task), titleOf(task)]));
  const done = new Set(result.work.map(({ task }) => taskKey(task)));
  const missing = [...titles].flatMap(([key, title]) => (done.has(key) ? [] : [title]));
  const remarks = missing.length > 0 ? [...result.remarks, `Not done: ${missing.join(", ")}.`] : result.remarks;
  return { ...result, remarks, work: result.work.map((work) => asListed(work, list, titles)) };
}

function asListed(work: GradedWork, list: TaskList, titles: ReadonlyMap<string, string>): GradedWork {
  const title = titles.get(taskKey(work.task));
  const isUnasked = list.asksHypothesis && work.kind === "hunt" && !work.asksHypothesis;
  const remarks = isUnasked ? [...work.remarks, "Done without a hypothesis before each action."] : work.remarks;
  if (title !== undefined) return { ...work, title, remarks };
  const text =
    work.points === undefined
      ? "Not on the task list."
      : `Not on the task list: its ${work.points} points do not count.`;
  return { ...work, points: undefined, skills: [], remarks: [...work.remarks, text] };
}
