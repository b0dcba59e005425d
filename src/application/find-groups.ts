import { isFuseOrRelay, type Item } from "../connectivity/index.ts";
import type { Harness } from "../harness-model/index.ts";

/** The groups that hits of a search are listed in, in the order of equal hits: items before what is inside them. */
export const FIND_GROUPS = ["part", "code", "wire", "connector", "pin", "fuse", "splice", "segment"] as const;
/** A group of hits. */
export type FindGroup = (typeof FIND_GROUPS)[number];

/** What the groups are called. */
export const GROUP_TITLES: Readonly<Record<FindGroup, string>> = {
  part: "Part",
  code: "Trouble code (DTC)",
  wire: "Circuit and wire",
  connector: "Connector",
  pin: "Pin",
  fuse: "Fuse and relay",
  splice: "Splice and ground",
  segment: "Harness segment",
};

/**
 * The group that an item is listed in.
 *
 * @param harness The harness.
 * @param item The item.
 */
export function groupOf(harness: Harness, { type, id }: Item): FindGroup {
  switch (type) {
    case "code":
    case "connector":
    case "splice":
    case "segment":
      return type;
    case "wire":
    case "net":
    case "open-end":
      return "wire";
    case "contact":
      return "pin";
    case "stud":
      return "splice";
    case "component":
    case "element":
    case "zone":
    case "inner":
      return isPluggedIn(harness, id) ? "fuse" : "part";
  }
}

/** Whether an id is that of a fuse or a relay, or of a part that is nothing else. */
function isPluggedIn({ fitted }: Harness, id: string): boolean {
  const dot = id.lastIndexOf(".");
  const all = fitted.components.get(dot < 0 ? id : id.slice(0, dot))?.elements ?? [];
  const meant = dot < 0 ? all : all.filter((element) => element.id === id.slice(dot + 1));
  return meant.length > 0 && meant.every((element) => isFuseOrRelay(element, all));
}
