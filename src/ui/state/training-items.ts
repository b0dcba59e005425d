import { EXERCISE_ITEM_TYPES } from "../../application/index.ts";
import type { ExerciseEvent } from "../../job-records/index.ts";
import type { Item } from "../../connectivity/index.ts";

type Thing = Extract<ExerciseEvent, { kind: "visual-inspection" }>["at"];

/** An item as a thing that can be looked at, moved or suspected; undefined for zones, nets, codes and inner points. */
export function thingOf({ type, id }: Item): Thing | undefined {
  const known = EXERCISE_ITEM_TYPES.find((each) => each === type);
  return known && { type: known, id };
}

/** Those of some items that are things. */
export function thingsOf(items: readonly Item[]): Thing[] {
  return items.flatMap((item) => thingOf(item) ?? []);
}
