import { err, ok, type Result } from "../../../base/index.ts";
import type { Connector, HarnessDocument } from "../../../model/index.ts";
import { cleanId, cut } from "../../draft/clean-id.ts";
import { renameDocument } from "./rename-document.ts";

/** Cavities that meet, by their ids in the first and in the second connector. */
export type CavityPairs = readonly (readonly [first: string, second: string])[];

/**
 * Plugs two connectors of a document into one another: they become one connector with two halves, each of which keeps the id of its
 * connector as its name. Components that stood for the unknown other side go, if nothing is known of their inside. The places of both
 * become one, so that routes go on across the joint.
 *
 * @param document The document; it is not changed.
 * @param ids Ids of the two connectors.
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
    return err("one of them is mated already or has a known device behind it");
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
  if (connector.halves.filter((half) => half.id !== "device").length !== 1) return false;
  if (connector.component === undefined) return connector.halves.length === 1;
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
    if (met.has(one) || names.has(two)) return err("one cavity is to meet two others");
    met.add(one);
    names.set(two, one);
  }
  for (const { id } of second.cavities) {
    if (names.has(id)) continue;
    let name: string = id;
    for (let number = 2; taken.has(name); number++) name = `${cut(id, 56)}-${number}`;
    taken.add(name);
    names.set(id, name);
  }
  return ok(names);
}

/** Makes the place of the second connector that of the first, in all that is said of it. */
function joinPlaces(document: HarnessDocument, first: Connector, second: Connector): HarnessDocument {
  if (first.place === undefined || second.place === undefined || first.place === second.place) return document;
  const renamed = renameDocument(document, { places: new Map<string, string>([[second.place, first.place]]) });
  const places = renamed.places.filter((_, at) => document.places[at]?.id !== second.place);
  return { ...renamed, places };
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
  const wanted = cut(cleanId(`${first.id}+${second.id}`) ?? first.id, 56);
  let id = wanted;
  for (let number = 2; taken.has(id); number++) id = `${wanted}-${number}`;
  const place = first.place ?? second.place;
  const made = {
    ...rest,
    id,
    label: first.label === second.label ? first.label : cut(`${first.label} / ${second.label}`, 600),
    kind: "inline" as const,
    halves: [
      // Each half is fitted with what its connector was.
      { id: "first", name: first.id, label: first.label, ...partsOf(first), ...whenOf(first) },
      { id: "second", name: second.id, label: second.label, ...partsOf(second, cavities), ...whenOf(second) },
    ],
    face: { ...first.face, ofHalf: "first" },
    cavities: [...first.cavities, ...extra],
    ...sealedOf(first, second),
    ...(place === undefined ? {} : { place }),
  };
  // Plain ids: what comes out is checked by the model before anyone asks anything of it.
  return made as unknown as Connector;
}

/** Sealed as soon as one half is known to be, not sealed only where both are known not to be. */
function sealedOf(first: Connector, second: Connector): { readonly sealed?: boolean } {
  if (first.sealed === true || second.sealed === true) return { sealed: true };
  return first.sealed === false && second.sealed === false ? { sealed: false } : {};
}

/** Parts of the half that wires end in, under the cavities of the joint connector. */
function partsOf({ halves }: Connector, cavities?: ReadonlyMap<string, string>) {
  const { part, fitted } = halves.find((half) => half.id !== "device") ?? {};
  const named = fitted?.map((each) => ({ ...each, cavity: cavities?.get(each.cavity) ?? each.cavity }));
  return { ...(part && { part }), ...(named && { fitted: named }) };
}

function whenOf({ when }: Connector): { readonly when?: string } {
  return when === undefined ? {} : { when };
}

function renamedEnd(end: string, { first, second, cavities }: Mating): string {
  const colon = end.lastIndexOf(":");
  if (colon < 0) return end;
  const owner = end.slice(0, colon);
  const cavity = end.slice(colon + 1);
  const isOf = (connector: Connector): boolean =>
    owner === connector.id ||
    connector.halves.some((half) => owner === half.name || owner === `${connector.id}.${half.id}`);
  if (isOf(first)) return `${first.id}:${cavity}`;
  return isOf(second) ? `${second.id}:${cavities.get(cavity) ?? cavity}` : end;
}
