import type { ItemKind, HarnessChange, HarnessComparison } from "ohmward/comparison";
import type { ChangedPair, MadeChange } from "./change-machine.ts";

/** How well a comparison found the changes that were made. */
export interface Found {
  readonly made: number;
  readonly found: number;
  readonly right: number;
  /** Of the items that were renamed: how many there were, how many were found or stand among stated equivalents. */
  readonly renamed: number;
  readonly partnered: number;
  readonly missed: readonly string[];
  readonly wrong: readonly string[];
}

/** An id that a change gave: no item before has it. */
const FRESH = /(?:^|[.:|-])(?:W|SP|SG|B|DTC|XQ|c)N\d+/u;

/** Compares what was found with what was made; a stated equivalent counts. Where all ids are new, names count as partners. */
export function scoreComparison({ changes, partnerOf }: HarnessComparison, { made, renamed }: ChangedPair): Found {
  const isAll = renamed.size > 0;
  const isName = (what: string): boolean => what === "renamed" || what === "renumbered";
  const wanted = new Set(made.filter(({ what }) => !isAll || !isName(what)).map(keyOfMade));
  const count = wanted.size;
  const told = changes.filter(({ what }) => !isAll || !isName(what));
  const wrong: string[] = [];
  for (const change of told) {
    const key = keysOf(change).find((each) => wanted.has(each));
    if (key === undefined)
      wrong.push(`${keysOf(change)[0] ?? ""} ${JSON.stringify(change.fields)} ${JSON.stringify(change.match)}`);
    else wanted.delete(key);
  }
  const equal = new Map(changes.map((change) => [`${change.item}|${change.before ?? ""}`, change.equivalent.after]));
  const names = [...renamed].filter(([key]) => !/ (?:local|name)\|/u.test(key) && !FRESH.test(key));
  const isThere = names.filter(([key, after]) => {
    const [kind = "", id = ""] = key.split("|");
    return partnerOf(kind as ItemKind, id) === after || equal.get(key)?.includes(after);
  });
  return {
    made: count,
    found: told.length,
    right: told.length - wrong.length,
    renamed: names.length,
    partnered: isThere.length,
    missed: [...wanted],
    wrong,
  };
}

function keyOfMade({ item, what, before = "", after = "", fields = [] }: MadeChange): string {
  return [item, what, before, after, fields.join("+")].join(" ");
}

function keysOf({ item, what, before = "", after = "", fields, equivalent }: HarnessChange): readonly string[] {
  const told = what === "changed" || what === "moved" ? fields.map(({ field }) => field).join("+") : "";
  return [before, ...equivalent.before].flatMap((one) =>
    [after, ...equivalent.after].map((two) => [item, what, one, two, told].join(" ")),
  );
}
