import { HUNT_THING_TYPES } from "../../workbench/index.ts";
import type { HuntEvent } from "../../records/index.ts";
import type { Item } from "../../trace/index.ts";

type Thing = Extract<HuntEvent, { kind: "look" }>["at"];

/** An item as a thing that can be looked at, moved or suspected; undefined for zones, nets, codes and inner points. */
export function thingOf({ type, id }: Item): Thing | undefined {
  const known = HUNT_THING_TYPES.find((each) => each === type);
  return known && { type: known, id };
}

/** Those of some items that are things. */
export function thingsOf(items: readonly Item[]): Thing[] {
  return items.flatMap((item) => thingOf(item) ?? []);
}
