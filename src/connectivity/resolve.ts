import { sideKey, makeFitting, type Connector, type ConnectorSide, type Harness } from "../harness-model/index.ts";
import { find, itemsNamed } from "./find.ts";
import { componentEdges, componentTerminals, edgeEnds, type Item } from "./item.ts";

/** A thing with the nodes and edges it stands for. */
export interface Resolved extends Item {
  /**
   * Its points, one group a point: the groups of a component are its terminals, those of a connector its cavities. The nodes of one
   * group are the two halves of a mated contact, or the two ends of a wire or element.
   */
  readonly groups: readonly (readonly number[])[];
  /** The edges it stands for itself: a wire, an element, the mating of a contact. */
  readonly edges: readonly number[];
}

/** Most items that a text is taken for. */
const MOST_ITEMS = 8;

/** What a text names on this build. */
type Resolution =
  | { readonly kind: "one"; readonly item: Resolved }
  | { readonly kind: "several"; readonly text: string; readonly items: readonly Item[] }
  | { readonly kind: "not-fitted"; readonly item: Item; readonly build: string; readonly fittedIn: readonly string[] }
  | { readonly kind: "empty"; readonly item: Item }
  | { readonly kind: "unknown"; readonly text: string; readonly suggestions: readonly Item[] };

/**
 * Finds what an address or id names: `A1.X1:36`, `XC1m:3`, `SP11`, `W89`, `B3`, `A3.F3`, a net label or a code. Capital and small letters
 * are the same. A text that is no address is searched for: one clear hit is taken, several ask, none suggest.
 *
 * @param text What was typed.
 * @returns One thing; or several to choose from; or a thing that this build does not have; or a cavity with nothing in it; or unknown.
 */
export function resolve(harness: Harness, text: string): Resolution {
  const wanted = text.trim();
  const exact = resolveExact(harness, wanted) ?? resolveExact(harness, sameButForCase(harness, wanted));
  if (exact) return exact;
  const named = itemsNamed(harness, wanted);
  const only = named.length === 1 ? resolveExact(harness, named[0]?.id ?? "") : undefined;
  if (only) return only;
  if (named.length > 0) return { kind: "several", text: wanted, items: named.slice(0, MOST_ITEMS) };
  const suggestions = find(harness, wanted, { limit: MOST_ITEMS }).map((hit) => hit.item);
  return { kind: "unknown", text: wanted, suggestions };
}

/** Turns an item of an earlier answer back into its nodes and edges. */
export function resolveItem(harness: Harness, item: Item): Resolved | undefined {
  const resolution = resolveExact(harness, item.id);
  return resolution?.kind === "one" ? resolution.item : undefined;
}

function sameButForCase(harness: Harness, text: string): string {
  const colon = text.lastIndexOf(":");
  const owner = colon < 0 ? text : text.slice(0, colon);
  const lower = owner.toLowerCase();
  for (const id of [...allIds(harness)])
    if (id.toLowerCase() === lower) return colon < 0 ? id : id + text.slice(colon).toUpperCase();
  return text;
}

function* allIds({ document, book }: Harness): Iterable<string> {
  yield* book.sides.keys();
  for (const items of [
    document.connectors,
    document.wires,
    document.splices,
    document.terminalStuds,
    document.components,
    document.codes,
    document.nets,
  ]) {
    for (const item of items) yield item.id;
  }
  for (const component of document.components)
    for (const element of component.elements) yield `${component.id}.${element.id}`;
}

function resolveExact(harness: Harness, id: string): Resolution | undefined {
  const colon = id.lastIndexOf(":");
  if (colon > 0) return resolveContact(harness, id.slice(0, colon), id.slice(colon + 1)) ?? resolveOpenEnd(harness, id);
  return resolveSimple(harness, id) ?? resolveComposite(harness, id) ?? resolveLabel(harness, id);
}

function one(item: Item, groups: readonly (readonly number[])[], edges: readonly number[]): Resolution {
  return { kind: "one", item: { ...item, groups, edges } };
}

function resolveContact(harness: Harness, owner: string, cavity: string): Resolution | undefined {
  const named = harness.book.sides.get(owner);
  const connector = named?.connector ?? harness.book.connectors.get(owner);
  if (!connector || !harness.book.cavities.get(connector)?.has(cavity)) return undefined;
  const item: Item = { type: "contact", id: `${owner}:${cavity}` };
  const sides = named ? [named.side] : connector.sides;
  const numbers = sides.flatMap((side) => harness.nodeNumbers.get(`${sideKey(connector, side)}:${cavity}`) ?? []);
  if (numbers.length > 0) {
    const mating = named ? undefined : harness.edgeNumbers.get(item.id);
    return one(item, [numbers], mating === undefined ? [] : [mating]);
  }
  const isFitted = sides.some((side) => harness.fitted.sides.get(connector.id)?.includes(side));
  return isFitted
    ? { kind: "empty", item }
    : notFitted(harness, item, fittedIn(harness, connector.when, named?.side.when));
}

function resolveOpenEnd(harness: Harness, id: string): Resolution | undefined {
  const number = harness.nodeNumbers.get(id);
  return number === undefined || harness.nodes[number]?.kind !== "open-end"
    ? undefined
    : one({ type: "open-end", id }, [[number]], []);
}

function notFitted(harness: Harness, item: Item, builds: readonly string[]): Resolution {
  return { kind: "not-fitted", item, build: harness.build.id, fittedIn: builds };
}

/** The builds in which all of some option expressions hold. */
function fittedIn(harness: Harness, ...whens: readonly (string | undefined)[]): readonly string[] {
  return harness.document.builds.filter((build) => whens.every(makeFitting(build))).map((build) => build.id);
}

function resolveSimple(harness: Harness, id: string): Resolution | undefined {
  const { document, fitted, book } = harness;
  const edge = fitted.wires.has(id) ? harness.edgeNumbers.get(id) : undefined;
  if (edge !== undefined) return one({ type: "wire", id }, [edgeEnds(harness, [edge])], [edge]);
  const wire = document.wires.find((each) => each.id === id);
  if (wire) return notFitted(harness, { type: "wire", id }, fittedIn(harness, wire.when));
  for (const [type, found] of [
    ["splice", book.splices.get(id)],
    ["stud", book.terminalStuds.get(id)],
  ] as const) {
    if (!found) continue;
    const node = harness.nodeNumbers.get(id);
    const item: Item = { type, id };
    return node === undefined ? notFitted(harness, item, fittedIn(harness, found.when)) : one(item, [[node]], []);
  }
  const connector = book.connectors.get(id);
  if (connector) return resolveConnector(harness, connector);
  const component = book.components.get(id);
  if (!component) return undefined;
  const item: Item = { type: "component", id };
  if (!fitted.components.has(id)) return notFitted(harness, item, fittedIn(harness, component.when));
  return one(item, componentTerminals(harness, id), componentEdges(harness, id));
}

function resolveConnector(harness: Harness, connector: Connector): Resolution {
  const item: Item = { type: "connector", id: connector.id };
  const sides = harness.fitted.sides.get(connector.id);
  if (!sides) return notFitted(harness, item, fittedIn(harness, connector.when));
  const groups = connector.cavities
    .map((cavity) => sides.flatMap((side) => harness.nodeNumbers.get(`${sideKey(connector, side)}:${cavity.id}`) ?? []))
    .filter((group) => group.length > 0);
  const edges = connector.cavities.flatMap((cavity) => harness.edgeNumbers.get(`${connector.id}:${cavity.id}`) ?? []);
  return one(item, groups, edges);
}

function resolveSide(
  harness: Harness,
  id: string,
  { connector, side }: { connector: Connector; side: ConnectorSide },
): Resolution {
  if (harness.fitted.sides.get(connector.id)?.includes(side)) return resolveConnector(harness, connector);
  return notFitted(harness, { type: "connector", id }, fittedIn(harness, connector.when, side.when));
}

function resolveComposite(harness: Harness, id: string): Resolution | undefined {
  const named = harness.book.sides.get(id);
  if (named) return resolveSide(harness, id, named);
  const edges = [id, `${id}.top`, `${id}.bottom`].flatMap((key) => harness.edgeNumbers.get(key) ?? []);
  if (edges.length > 0 && !harness.fitted.wires.has(id))
    return one({ type: "element", id }, [edgeEnds(harness, edges)], edges);
  for (const component of harness.document.components) {
    const element = component.elements.find((each) => `${component.id}.${each.id}` === id);
    if (element) return notFitted(harness, { type: "element", id }, fittedIn(harness, component.when, element.when));
  }
  const inner = harness.nodeNumbers.get(id);
  return inner === undefined ? undefined : one({ type: "inner", id }, [[inner]], []);
}

function resolveLabel(harness: Harness, id: string): Resolution | undefined {
  const code = harness.document.codes.find((each) => each.id === id);
  if (code && !makeFitting(harness.build)(code.when)) {
    return notFitted(harness, { type: "code", id }, fittedIn(harness, code.when));
  }
  if (code) {
    const points = code.points.flatMap((address) => {
      const point = resolveExact(harness, address);
      return point?.kind === "one" ? [point.item] : [];
    });
    return one(
      { type: "code", id },
      points.flatMap((point) => point.groups),
      points.flatMap((point) => point.edges),
    );
  }
  const segment = harness.segments.get(id);
  if (segment) {
    const wires = [...harness.fitted.wires.values()].filter((wire) => wire.route?.some((each) => each === id));
    const edges = wires.flatMap((wire) => harness.edgeNumbers.get(wire.id) ?? []);
    return one(
      { type: "segment", id },
      edges.map((edge) => edgeEnds(harness, [edge])),
      edges,
    );
  }
  const edges = [...harness.fitted.wires.values()]
    .filter((wire) => wire.net === id)
    .flatMap((wire) => harness.edgeNumbers.get(wire.id) ?? []);
  return edges.length === 0 ? undefined : one({ type: "net", id }, [edgeEnds(harness, edges)], edges);
}
