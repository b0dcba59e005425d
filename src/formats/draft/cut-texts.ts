import { importProblem } from "../import-problem.ts";
import { cut } from "./clean-id.ts";
import type { DraftParts } from "./draft-parts.ts";

/** Longest label or sentence a document takes, in characters. */
export const MOST_TEXT_CHARACTERS = 600;

/** Names of fields that hold words of the file. */
const FIELDS = ["label", "note", "net", "harness", "group", "covering", "clips"] as const;

type Worded = { [Field in (typeof FIELDS)[number]]?: string | undefined };

/** Cuts what is too long for a document, and says so: the texts of a file may be of any length. */
export function cutTexts(parts: DraftParts): void {
  const mend = (thing: Worded): void => {
    for (const field of FIELDS) {
      const text = thing[field];
      if (text === undefined || text.length <= MOST_TEXT_CHARACTERS) continue;
      thing[field] = cut(text, MOST_TEXT_CHARACTERS);
      const facts = { what: field, length: text.length, limit: MOST_TEXT_CHARACTERS };
      parts.problems.push(importProblem("text-cut", parts.found.get(thing) ?? {}, facts));
    }
  };
  const { wires, splices, studs, components, connectors, options, builds, zones, places, segments } = parts;
  for (const list of [wires, splices, studs, components, connectors, options, builds, zones, places, segments]) {
    list.forEach(mend);
  }
  for (const connector of connectors) {
    connector.cavities.forEach(mend);
    connector.halves.forEach(mend);
  }
  // A label of a net is its id, so it has to be cut as the wires have it.
  for (const net of parts.nets) net.id = cut(net.id, MOST_TEXT_CHARACTERS);
}
