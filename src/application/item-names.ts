import type { Harness } from "../harness-model/index.ts";
import { describeItem, resolve, type Item } from "../connectivity/index.ts";

/** The item an id of an answer names; as a component where the build does not know it. */
export function itemOfId(harness: Harness | undefined, id: string): Item {
  const found = harness ? resolve(harness, id) : undefined;
  switch (found?.kind) {
    case "one":
    case "empty":
    case "not-fitted":
      return { type: found.item.type, id: found.item.id };
    case "several":
    case "unknown":
    case undefined:
      return { type: "component", id };
  }
}

/** Joins names of an item; one that says no more than another is left out. */
export function joinNames(names: readonly (string | undefined)[]): string {
  const known = [...new Set(names)].filter((name) => name !== undefined && name !== "").map(String);
  // "Rail pressure sensor" says no more than "Rail pressure sensor, 0-2000 bar".
  return known.filter((name) => !known.some((other) => other !== name && other.startsWith(name))).join(", ");
}

/** What the item of an id is called; its id where it has no name of its own. */
export function labelOf(harness: Harness, id: string): string {
  return describeItem(harness, itemOfId(harness, id)).label;
}
