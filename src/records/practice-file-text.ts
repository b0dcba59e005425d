import { contentHash } from "./content-hash.ts";
import { plainText } from "./practice-plain-text.ts";
import { PracticeResult } from "./practice-result.ts";
import { TaskList } from "./practice-task-list.ts";

/**
 * The checksum of a practice file over everything in it but the checksum itself. It shows changes made in passing. It is no signature:
 * whoever knows how it is made can make another, which is why results are worked out again from what was done.
 *
 * @param content The content, with or without its checksum.
 */
export function practiceCheck(content: Readonly<Record<string, unknown>>): string {
  const { check: _, ...rest } = content;
  return contentHash(plainText(rest));
}

/** The text of a task list, its checksum made anew. */
export function writeTaskList(list: Omit<TaskList, "check">): string {
  return write(TaskList.parse({ ...list, check: practiceCheck(list) }));
}

/** The text of a result file, its checksum made anew. */
export function writePracticeResult(result: Omit<PracticeResult, "check">): string {
  return write(PracticeResult.parse({ ...result, check: practiceCheck(result) }));
}

function write(content: unknown): string {
  return `${JSON.stringify(content, undefined, 2)}\n`;
}
