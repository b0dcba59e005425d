import type { HarnessDocument } from "../../../model/index.ts";

/** New ids by old ones, for each space of names of a document. What is not listed keeps its id. */
export interface Renames {
  /** Wires, splices, studs, components, connectors, segments, zones, codes, and short names of halves. */
  readonly shared?: ReadonlyMap<string, string>;
  readonly places?: ReadonlyMap<string, string>;
  readonly options?: ReadonlyMap<string, string>;
  readonly builds?: ReadonlyMap<string, string>;
  readonly states?: ReadonlyMap<string, string>;
  readonly others?: ReadonlyMap<string, string>;
}

type Plain = string | number | boolean | null | undefined | readonly Plain[] | { readonly [name: string]: Plain };
type Change = (text: string) => string;

/**
 * Gives things of a document new ids, everywhere they are named: in references, addresses, option expressions and settings.
 *
 * @param document The document; it is not changed.
 * @param renames New ids.
 * @returns The document with new ids, to be checked anew.
 */
export function renameDocument(document: HarnessDocument, renames: Renames): HarnessDocument {
  const changes = changesOf(renames, ownersOf(document));
  const lists = Object.entries(document).map(([name, value]) => [name, walk(value, changes, [name])]);
  // The same form with other ids; the model checks it before anyone asks anything of it.
  return Object.fromEntries(lists) as HarnessDocument;
}

/** What to do with the text at a place of the document, by the names that lead to it; list positions are left out. */
type Changes = (way: readonly string[]) => Change | undefined;

/** What an address may begin with: ids of connectors and short names of halves. */
function ownersOf(document: HarnessDocument): ReadonlySet<string> {
  const halves = document.connectors.flatMap((connector) => connector.halves.map((half) => half.name));
  return new Set([
    ...document.connectors.map((connector) => connector.id),
    ...halves.filter((name) => name !== undefined),
  ]);
}

function changesOf(renames: Renames, owners: ReadonlySet<string>): Changes {
  const of =
    (map: ReadonlyMap<string, string> | undefined): Change =>
    (id) =>
      map?.get(id) ?? id;
  const shared = of(renames.shared);
  const place = of(renames.places);
  const option = of(renames.options);
  const state = of(renames.states);
  const other = of(renames.others);
  const address: Change = (text) => renamedAddress(text, shared, owners);
  const expression: Change = (text) => text.replace(/[\p{L}\p{N}][\p{L}\p{N}._+-]*/gu, option);
  const setting: Change = (text) => renamedOwner(text, shared, owners);
  const table: readonly (readonly [RegExp, Change])[] = [
    [/^(?:wires|splices|studs|components|connectors|segments|zones|codes) id$/u, shared],
    [/^connectors halves name$/u, shared],
    [/^places id$|(?:^| )place$|^segments (?:from|to)$|^splices at from$/u, place],
    [
      /(?:^| )(?:component|zone|module)$|^splices at segment$|^wires route$|^cautions on (?:zones|components)$/u,
      shared,
    ],
    [
      /^wires ends$|^statements about$|(?: )(?:between|tap|points)$|^system supply|^components needs (?:positive|negative)$/u,
      address,
    ],
    [/(?: )when$/u, expression],
    [/^options id$|^builds options$/u, option],
    [/^builds id$/u, of(renames.builds)],
    [/^states id$|(?: )(?:states|boostedIn)$|^components elements resistanceByState state$/u, state],
    [/^states settings of$/u, setting],
    [/^adapters fits$/u, setting],
    [/^(?:adapters|cautions) id$/u, other],
  ];
  const known = new Map<string, Change | undefined>();
  return (way) => {
    const key = way.join(" ");
    if (!known.has(key)) known.set(key, table.find(([pattern]) => pattern.test(key))?.[1]);
    return known.get(key);
  };
}

function walk(value: Plain, changes: Changes, way: readonly string[]): Plain {
  if (typeof value === "string") return changes(way)?.(value) ?? value;
  if (isList(value)) return value.map((each) => walk(each, changes, way));
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([name, each]) => [name, walk(each, changes, [...way, name])]));
}

function isList(value: Plain): value is readonly Plain[] {
  return Array.isArray(value);
}

/** `A1.X1:36`, `A1.X1.device:36`, `XC1m:3`, `SP11`, `#gnd`. */
function renamedAddress(text: string, shared: Change, owners: ReadonlySet<string>): string {
  if (text.startsWith("#")) return text;
  const colon = text.lastIndexOf(":");
  return colon < 0 ? shared(text) : renamedOwner(text.slice(0, colon), shared, owners) + text.slice(colon);
}

/** An id, or one with the id of a half or element behind a dot. */
function renamedOwner(text: string, shared: Change, owners: ReadonlySet<string>): string {
  const whole = shared(text);
  if (whole !== text || owners.has(text)) return whole;
  const dot = text.lastIndexOf(".");
  return dot < 0 ? text : shared(text.slice(0, dot)) + text.slice(dot);
}
