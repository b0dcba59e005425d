import { importProblem, type ImportProblem } from "../import-problem.ts";
import { cleanId } from "../draft/clean-id.ts";
import { knownEnds, type ContactPoint, type TableEntries } from "./table-entries.ts";
import type { InlinePair } from "./table-options.ts";

/** What a table calls a connector, and the connector and half of the document that this name stands for. */
export interface NamedHalf {
  /** Id of the connector, as wished; the draft may have to change it. */
  readonly connector: string;
  /** Absent for a device connector. */
  readonly half?: { readonly id: string; readonly name?: string };
}

/** Every connector and half that a table names, by `nameOfHalf`, in order of appearance. */
export type ConnectorGroups = ReadonlyMap<string, NamedHalf>;

/** One text for connector and half as a table names them. */
export function nameOfHalf(connector: string, half: string): string {
  return half === "" ? connector : `${connector}\0${half}`;
}

/**
 * Finds which connectors of a table are halves of inline connectors: those that share an id and have a half of their own, those said to
 * mate, and the pairs a person has confirmed.
 *
 * @param entries What the table says.
 * @param names The names of connectors as used in the document, by point.
 * @param given Confirmed pairs, and where problems go.
 */
export function groupConnectors(
  entries: TableEntries,
  names: (point: ContactPoint) => string,
  given: { readonly pairs: readonly InlinePair[]; readonly report: (problem: ImportProblem) => void },
): ConnectorGroups {
  const groups = new Map<string, NamedHalf>();
  const points = [
    ...entries.pins.map((pin) => pin.point),
    ...entries.wires.flatMap((wire) => knownEnds(wire.ends).filter((end) => end.kind === "contact")),
  ];
  for (const point of points) {
    const name = names(point);
    const key = nameOfHalf(name, point.half);
    if (groups.has(key)) continue;
    groups.set(key, point.half === "" ? { connector: name } : ownHalf(name, point.half));
  }
  const mates = mateGroups(entries, names, given);
  for (const members of mates) joinHalves(groups, members, given.pairs);
  return groups;
}

function ownHalf(connector: string, half: string): NamedHalf {
  const id = half.toLowerCase() === "harness" || half.toLowerCase() === "device" ? half.toLowerCase() : half;
  // `XC1` with half `m` is also written `XC1m`.
  return { connector, half: /^[A-Za-z]{1,2}$/u.test(id) ? { id, name: `${connector}${id}` } : { id } };
}

/** Names of connectors that belong together, each group once. */
function mateGroups(
  entries: TableEntries,
  names: (point: ContactPoint) => string,
  { pairs, report }: { readonly pairs: readonly InlinePair[]; readonly report: (problem: ImportProblem) => void },
): readonly ReadonlySet<string>[] {
  const groupOf = new Map<string, Set<string>>();
  const join = (first: string, second: string): void => {
    const joined = new Set([...(groupOf.get(first) ?? [first]), ...(groupOf.get(second) ?? [second])]);
    for (const name of joined) groupOf.set(name, joined);
  };
  for (const { halves } of pairs) join(...halves);
  const mateOf = new Map<string, string>();
  for (const { point, mate, at } of entries.pins) {
    const name = names(point);
    if (mate === "" || mate === name) continue;
    const before = mateOf.get(name);
    if (before !== undefined && before !== mate) {
      report(importProblem("mate-differs", at, { connector: name, first: before, second: mate }));
      continue;
    }
    if (before === mate) continue;
    mateOf.set(name, mate);
    join(name, mate);
  }
  return [...new Set(groupOf.values())];
}

function joinHalves(groups: Map<string, NamedHalf>, members: ReadonlySet<string>, pairs: readonly InlinePair[]): void {
  const names = [...members];
  const stated = pairs.find((pair) => pair.halves.some((half) => members.has(half)))?.id;
  const stem = commonStem(names);
  const connector = stated ?? stem ?? names.join("+");
  for (const name of names) {
    const rest = stem === undefined ? name : name.slice(stem.length).replace(/^[-_. ]+/u, "");
    groups.set(name, { connector, half: { id: cleanId(rest) ?? name, name } });
  }
}

/** What the names begin with, if each goes on with a few letters only: `XC1` for `XC1m` and `XC1c`. */
function commonStem(names: readonly string[]): string | undefined {
  const [first = "", ...others] = names;
  let length = first.length;
  for (const name of others) {
    while (!name.startsWith(first.slice(0, length))) length -= 1;
  }
  const stem = first.slice(0, length).replace(/[-_. ]+$/u, "");
  return stem !== "" && names.every((name) => /^[-_. ]?\p{L}{1,8}$/u.test(name.slice(stem.length))) ? stem : undefined;
}

/**
 * Finds pairs of connectors that may be the halves of one inline connector: names that differ in one last letter, and the same pins.
 * They are proposals only.
 */
export function findPossiblePairs(pinsByName: ReadonlyMap<string, ReadonlySet<string>>): readonly InlinePair[] {
  const byStem = new Map<string, string[]>();
  for (const name of pinsByName.keys()) {
    const stem = /^(.*\d)[-_. ]?\p{L}$/u.exec(name)?.[1];
    if (stem !== undefined) byStem.set(stem, [...(byStem.get(stem) ?? []), name]);
  }
  const pairs: InlinePair[] = [];
  for (const [id, [first, second, third]] of byStem) {
    if (first === undefined || second === undefined || third !== undefined) continue;
    const [ofFirst, ofSecond] = [pinsByName.get(first), pinsByName.get(second)];
    const isSame = ofFirst?.size === ofSecond?.size && [...(ofFirst ?? [])].every((pin) => ofSecond?.has(pin));
    if (isSame) pairs.push({ halves: [first, second], id });
  }
  return pairs;
}
