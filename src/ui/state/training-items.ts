import { EXERCISE_ITEM_TYPES } from "../../application/index.ts";
import type { ExerciseEvent } from "../../job-records/index.ts";
import type { Item } from "../../connectivity/index.ts";

type Thing = Extract<ExerciseEvent, { kind: "visual-inspection" }>["at"];

/** An item as an exercise takes it: one that can be inspected, moved or named as a possible cause; undefined for zones, nets, codes and inner points. */
export function thingOf({ type, id }: Item): Thing | undefined {
  const known = EXERCISE_ITEM_TYPES.find((each) => each === type);
  return known && { type: known, id };
}

/** Those of some items that an exercise takes. */
export function thingsOf(items: readonly Item[]): Thing[] {
  return items.flatMap((item) => thingOf(item) ?? []);
}
