import type { HarnessDocument, Connector } from "../../harness-model/index.ts";
import { defined, err, ok, type Result } from "../../base/index.ts";
import { cleanId, cut, freeName } from "../draft/draft-parts.ts";

/** One document of several that become one. */
export interface JoinPart {
  readonly document: HarnessDocument;
  /** The one build of it to keep; absent means all. */
  readonly build?: string;
  /** Put before ids of it that are taken already; absent means a letter: `B-`, `C-`. */
  readonly prefix?: string;
}

/** Cavities that meet, by their ids in the first and in the second connector. */
export type CavityPairs = readonly (readonly [first: string, second: string])[];

/**
 * Plugs two connectors of a document into one another: they become one connector with two halves, each of which keeps the id of its
 * connector as its name. Components that stood for the unknown other side go, if nothing is known of their inside. The places of both
 * become one, so that routes go on across the joint.
 *
 * @param document The document; it is not changed.
 * @param pairs Cavities that meet; absent means those of the same id. The cavities of the second half take the ids of the first.
 * @returns The document, to be checked anew, or in words why the two cannot mate.
 */
export function mateConnectors(
  document: HarnessDocument,
  ids: readonly [string, string],
  pairs?: CavityPairs,
): Result<HarnessDocument, string> {
  const [first, second] = ids.map((id) => document.connectors.find((connector) => connector.id === id));
  if (!first || !second) return err("there is no such connector");
  if (first === second) return err("they are the same connector");
  if (!isFree(document, first) || !isFree(document, second))
    return err("one of them is mated already or has a known component behind it");
  const cavities = cavityNames(first, second, pairs);
  if (!cavities.ok) return cavities;
  const joined = joinPlaces(document, first, second);
  const gone = new Set<string | undefined>([first.component, second.component]);
  const made = makeConnector(document, { first, second, cavities: cavities.value });
  return ok({
    ...joined,
    components: joined.components.filter((component) => !gone.has(component.id)),
    connectors: joined.connectors.flatMap((each) =>
      each.id === second.id ? [] : each.id === first.id ? [made] : [each],
    ),
    wires: joined.wires.map((wire) => {
      const rename = (end: string): string => renamedEnd(end, { first, second, cavities: cavities.value });
      const [from, to] = wire.ends;
      return { ...wire, ends: to === undefined ? [rename(from)] : [rename(from), rename(to)] };
    }),
  });
}

/** Whether the other side of a connector is open or only assumed. */
function isFree(document: HarnessDocument, connector: Connector): boolean {
  if (connector.sides.filter((side) => side.id !== "device").length !== 1) return false;
  if (connector.component === undefined) return connector.sides.length === 1;
  const component = document.components.find((each) => each.id === connector.component);
  const others = document.connectors.filter((each) => each.component === connector.component);
  return component !== undefined && component.elements.length === 0 && others.length === 1;
}

/** What each cavity of the second connector is called in the joint one. */
function cavityNames(
  first: Connector,
  second: Connector,
  pairs: CavityPairs | undefined,
): Result<ReadonlyMap<string, string>, string> {
  if (!pairs) return ok(new Map(second.cavities.map(({ id }) => [id, id])));
  const names = new Map<string, string>();
  const taken = new Set<string>(first.cavities.map((cavity) => cavity.id));
  const met = new Set<string>();
  for (const [one, two] of pairs) {
    if (!taken.has(one) || !second.cavities.some((cavity) => cavity.id === two))
      return err("a cavity named is not there");
    if (met.has(one) || names.has(two)) return err("one cavity mates with two others");
    met.add(one);
    names.set(two, one);
  }
  for (const { id } of second.cavities) {
    if (names.has(id)) continue;
    const name = freeName(id, taken);
    taken.add(name);
    names.set(id, name);
  }
  return ok(names);
}

/** Makes the place of the second connector that of the first, in all that is said of it. */
function joinPlaces(document: HarnessDocument, first: Connector, second: Connector): HarnessDocument {
  if (first.place === undefined || second.place === undefined || first.place === second.place) return document;
  const renamed = renameDocument(document, { topologyNodes: new Map<string, string>([[second.place, first.place]]) });
  const places = renamed.topologyNodes.filter((_, at) => document.topologyNodes[at]?.id !== second.place);
  return { ...renamed, topologyNodes: places };
}

interface Mating {
  readonly first: Connector;
  readonly second: Connector;
  readonly cavities: ReadonlyMap<string, string>;
}

function makeConnector(document: HarnessDocument, { first, second, cavities }: Mating): Connector {
  const known = new Set<string>(first.cavities.map((cavity) => cavity.id));
  const lowest = Math.max(0, ...first.cavities.map((cavity) => cavity.y));
  const extra = second.cavities
    .map((cavity) => ({ ...cavity, id: cavities.get(cavity.id) ?? cavity.id, y: lowest + 1 + cavity.y }))
    .filter((cavity) => !known.has(cavity.id));
  const { component: _component, when: _when, sealed: _sealed, ...rest } = first;
  const taken = new Set<string>(
    [...document.connectors, ...document.components, ...document.wires].map(({ id }) => id),
  );
  const id = freeName(cut(cleanId(`${first.id}+${second.id}`) ?? first.id, 56), taken);
  const made = {
    ...rest,
    id,
    label: first.label === second.label ? first.label : cut(`${first.label} / ${second.label}`, 600),
    kind: "inline" as const,
    sides: [
      { id: "first", ...sideOf(first) },
      { id: "second", ...sideOf(second, cavities) },
    ],
    face: { ...first.face, ofSide: "first" },
    cavities: [...first.cavities, ...extra],
    ...defined({ sealed: sealedOf(first, second), place: first.place ?? second.place }),
  };
  // Plain ids: what comes out is checked by the model before anyone asks anything of it.
  return made as unknown as Connector;
}

/** Sealed as soon as one half is known to be, not sealed only where both are known not to be. */
function sealedOf(first: Connector, second: Connector): boolean | undefined {
  if (first.sealed === true || second.sealed === true) return true;
  return first.sealed === false && second.sealed === false ? false : undefined;
}

/** The half that wires end in, fitted with what its connector was, under the cavities of the joint connector. */
function sideOf({ id: name, label, sides, when }: Connector, cavities?: ReadonlyMap<string, string>) {
  const { part, fitted: held } = sides.find((side) => side.id !== "device") ?? {};
  const fitted = held?.map((each) => ({ ...each, cavity: cavities?.get(each.cavity) ?? each.cavity }));
  return { name, label, ...defined({ part, fitted, when }) };
}

function renamedEnd(end: string, { first, second, cavities }: Mating): string {
  const colon = end.lastIndexOf(":");
  if (colon < 0) return end;
  const owner = end.slice(0, colon);
  const cavity = end.slice(colon + 1);
  const isOf = (connector: Connector): boolean =>
    owner === connector.id ||
    connector.sides.some((side) => owner === side.name || owner === `${connector.id}.${side.id}`);
  if (isOf(first)) return `${first.id}:${cavity}`;
  return isOf(second) ? `${second.id}:${cavities.get(cavity) ?? cavity}` : end;
}

/** New ids by old ones, for each space of names of a document. What is not listed keeps its id. */
export interface Renames {
  /** Wires, splices, studs, components, connectors, segments, zones, codes, and short names of halves. */
  readonly shared?: ReadonlyMap<string, string>;
  readonly topologyNodes?: ReadonlyMap<string, string>;
  readonly options?: ReadonlyMap<string, string>;
  readonly builds?: ReadonlyMap<string, string>;
  readonly states?: ReadonlyMap<string, string>;
  readonly others?: ReadonlyMap<string, string>;
}

type Plain = string | number | boolean | null | undefined | readonly Plain[] | { readonly [name: string]: Plain };
type Change = (text: string) => string;

/**
 * Gives things of a document new ids, everywhere they are named: in references, addresses, option expressions and settings. What comes out
 * is to be checked anew.
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
function ownersOf({ connectors }: HarnessDocument): ReadonlySet<string> {
  return new Set(connectors.flatMap(({ id, sides }): string[] => [id, ...sides.flatMap(({ name }) => name ?? [])]));
}

function changesOf(renames: Renames, owners: ReadonlySet<string>): Changes {
  const of =
    (map: ReadonlyMap<string, string> | undefined): Change =>
    (id) =>
      map?.get(id) ?? id;
  const [shared, place, option] = [of(renames.shared), of(renames.topologyNodes), of(renames.options)];
  const [state, other] = [of(renames.states), of(renames.others)];
  const address: Change = (text) => renamedAddress(text, shared, owners);
  const expression: Change = (text) => text.replace(/[\p{L}\p{N}][\p{L}\p{N}._+-]*/gu, option);
  const setting: Change = (text) => renamedOwner(text, shared, owners);
  const table: readonly (readonly [RegExp, Change])[] = [
    [/^(?:wires|splices|terminalStuds|components|connectors|segments|zones|codes) id$/u, shared],
    [/^connectors sides name$/u, shared],
    [/^topologyNodes id$|(?:^| )place$|^segments (?:from|to)$|^splices at from$/u, place],
    [
      /(?:^| )(?:component|zone|module)$|^splices at segment$|^wires route$|^cautions on (?:zones|components)$/u,
      shared,
    ],
    [
      /^wires ends$|^statements about$|(?: )(?:between|tap|points)$|^system supply|^components needs (?:positive|negative|wake)$/u,
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
