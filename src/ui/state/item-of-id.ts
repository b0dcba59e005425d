import type { Harness } from "../../model/index.ts";
import { resolve, type Item } from "../../trace/index.ts";

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
