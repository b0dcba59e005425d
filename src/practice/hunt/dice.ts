import { seededRandom } from "../../base/index.ts";
import { contentHash } from "../../records/index.ts";

/**
 * A number that looks random and is fixed by a task and what it is drawn for, so that a hunt played again shows the same.
 *
 * @param number The number of the task.
 * @param key What is drawn for.
 * @returns A whole number, 0 to 9999.
 */
export function drawOf(number: number, key: string): number {
  const word = Number.parseInt(contentHash(`${number} ${key}`).slice(0, 8), 16);
  return seededRandom(word).integer(0, 9999);
}

/** Whether something that happens with a share of 0 to 1 happens this time. */
export function happens(number: number, key: string, share: number): boolean {
  return drawOf(number, key) < share * 10_000;
}
