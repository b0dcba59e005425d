import type { ItemType } from "../connectivity/index.ts";

/** What can be asked of an item; the words are those of the command line. */
export const ITEM_ACTIONS = ["circuit", "path", "test-points", "expected", "effect", "common"] as const;
/** One of them. */
export type ItemAction = (typeof ITEM_ACTIONS)[number];

/**
 * What can be asked of an item.
 *
 * @param type What it is.
 */
export function actionsOf(type: ItemType): readonly ItemAction[] {
  if (type === "zone" || type === "inner") return [];
  // A lead goes on a conductor; a segment is many wires, so a reading at it means nothing.
  return type === "segment" ? ITEM_ACTIONS.filter((action) => action !== "expected") : ITEM_ACTIONS;
}
