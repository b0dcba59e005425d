import type { State } from "../model/index.ts";

/** Whether nothing runs or cranks in a state, as its conditions say; a state without conditions is not known to be at rest. */
export function isAtRest({ conditions }: State): boolean {
  return conditions.length > 0 && !conditions.some((condition) => condition === "running" || condition === "cranking");
}
