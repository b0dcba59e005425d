import { unreachable } from "../base/index.ts";
import type { Harness } from "../harness-model/index.ts";
import { describeItem, type Cut, type Item, type Through } from "../connectivity/index.ts";

/** What is known of a way that does not exist. */
export interface MissingWay {
  readonly ends: readonly [Item, Item];
  readonly through: Through;
  readonly cut: Cut;
  readonly joinedIn: readonly string[];
}

/**
 * Says why two things are not joined, in a sentence or two.
 *
 * @param harness The harness of the build asked about.
 * @param way What is known of it.
 */
export function cutText(harness: Harness, way: MissingWay): string {
  const { ends, cut, joinedIn } = way;
  const [from, to] = ends;
  const elsewhere = joinedIn.length === 0 ? "" : ` There is a path in: ${joinedIn.join(", ")}.`;
  switch (cut.kind) {
    case "same":
      return `${from.id} and ${to.id} are the same point. There is no path between them.`;
    case "apart": {
      const here = `In build ${harness.build.id} there is no path from ${from.id} to ${to.id}`;
      return `${here}. No wire, contact or part in the data joins them.${elsewhere}`;
    }
    case "element":
      return `${throughText(way.through)} there is no path from ${from.id} to ${to.id}. It ends at ${named(harness, cut.at)}.${elsewhere}`;
    case "rail":
      return `The only path from ${from.id} to ${to.id} runs through the main ${cut.rail}. It reaches it at ${named(harness, cut.at)}.${elsewhere}`;
    default:
      return unreachable(cut);
  }
}

function throughText(through: Through): string {
  switch (through) {
    case "conductors":
      return "Through wires, contacts, splices and terminal studs only";
    case "switches-and-fuses":
      return "Through fuses, switches and relay contacts";
    case "loads":
      return "Through loads and coils";
    case "control-units":
      return "Through control units as well";
  }
}

function named(harness: Harness, item: Item): string {
  const { label } = describeItem(harness, item);
  return label === item.id ? item.id : `${item.id} (${label})`;
}
