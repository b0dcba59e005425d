import type { Cavity, Connector, ConnectorSide } from "./schema/connector.ts";
import type { HarnessDocument } from "./schema/document.ts";
import type { Component } from "./schema/element.ts";
import type { Splice, TerminalStud, Wire } from "./schema/routing.ts";

/** A point of the machine that a wire or element may end at. */
export type Point =
  | { readonly kind: "contact"; readonly connector: Connector; readonly side: ConnectorSide; readonly cavity: Cavity }
  | { readonly kind: "splice"; readonly splice: Splice }
  | { readonly kind: "stud"; readonly stud: TerminalStud }
  | { readonly kind: "open-end"; readonly wire: Wire }
  | { readonly kind: "inner"; readonly component: Component; readonly name: string };

/** Who asks: a wire ends at harness halves, an element of a component at device halves and inner points. */
export type AddressUse = { readonly by: "wire" } | { readonly by: "element"; readonly component: Component };

/** Everything an address can name, ready for look-up; independent of the build. */
export interface AddressBook {
  readonly connectors: ReadonlyMap<string, Connector>;
  /** Halves by `XC1.m`, and by short name `XC1m` where there is one. */
  readonly sides: ReadonlyMap<string, { readonly connector: Connector; readonly side: ConnectorSide }>;
  readonly cavities: ReadonlyMap<Connector, ReadonlyMap<string, Cavity>>;
  readonly splices: ReadonlyMap<string, Splice>;
  readonly terminalStuds: ReadonlyMap<string, TerminalStud>;
  /** Wires of which the data names one end only. */
  readonly openWires: ReadonlyMap<string, Wire>;
  readonly components: ReadonlyMap<string, Component>;
}

/** Builds the address book of a document. Where an id is used twice the first one stands; the checks report the second. */
export function buildAddressBook(document: HarnessDocument): AddressBook {
  const sides = new Map<string, { connector: Connector; side: ConnectorSide }>();
  const cavities = new Map<Connector, Map<string, Cavity>>();
  for (const connector of document.connectors) {
    cavities.set(connector, firstById(connector.cavities));
    for (const side of connector.sides) {
      for (const name of [`${connector.id}.${side.id}`, side.name]) {
        if (name !== undefined && !sides.has(name)) sides.set(name, { connector, side });
      }
    }
  }
  return {
    connectors: firstById(document.connectors),
    sides,
    cavities,
    splices: firstById(document.splices),
    terminalStuds: firstById(document.terminalStuds),
    openWires: firstById(document.wires.filter((wire) => wire.ends[1] === undefined)),
    components: firstById(document.components),
  };
}

function firstById<Thing extends { readonly id: string }>(items: readonly Thing[]): Map<string, Thing> {
  const map = new Map<string, Thing>();
  for (const item of items) if (!map.has(item.id)) map.set(item.id, item);
  return map;
}

/** Why an address names no point. */
export interface NoPoint {
  readonly kind: "none";
  readonly reason: string;
}

/**
 * Looks up the point an address of the document names.
 *
 * @param book The address book.
 * @param address The address as written, such as `A1.X1:36`, `XC1m:3`, `SP11`, `#gnd`.
 * @param use Who asks; it decides which half is meant where the address names none.
 */
export function lookUpPoint(book: AddressBook, address: string, use: AddressUse): Point | NoPoint {
  if (address.startsWith("#")) {
    if (use.by === "wire") return none("a wire cannot end inside a component");
    return { kind: "inner", component: use.component, name: address.slice(1) };
  }
  const colon = address.lastIndexOf(":");
  const open = address.endsWith(OPEN_END) ? book.openWires.get(address.slice(0, colon)) : undefined;
  if (open) return { kind: "open-end", wire: open };
  if (colon >= 0) return lookUpContact(book, address.slice(0, colon), { cavity: address.slice(colon + 1), use });
  const splice = book.splices.get(address);
  if (splice) return { kind: "splice", splice };
  const stud = book.terminalStuds.get(address);
  if (stud) return { kind: "stud", stud };
  if (book.connectors.has(address) || book.sides.has(address)) return none("the cavity is missing");
  return none("no cavity, splice or terminal stud has this address");
}

function lookUpContact(
  book: AddressBook,
  owner: string,
  wanted: { readonly cavity: string; readonly use: AddressUse },
): Point | NoPoint {
  const named = book.sides.get(owner);
  const connector = named?.connector ?? book.connectors.get(owner);
  if (!connector) return none(`there is no connector "${owner}"`);
  const side = named?.side ?? usualSide(connector, wanted.use);
  if (!side)
    return none(
      `"${owner}" has several sides. Name one: ${connector.sides.map((each) => each.name ?? each.id).join(", ")}`,
    );
  const cavity = book.cavities.get(connector)?.get(wanted.cavity);
  if (!cavity) return none(`"${connector.id}" has no cavity "${wanted.cavity}"`);
  if (side.cavities && !side.cavities.includes(cavity.id))
    return none(`side "${side.name ?? side.id}" has no cavity "${wanted.cavity}"`);
  return { kind: "contact", connector, side, cavity };
}

function usualSide(connector: Connector, use: AddressUse): ConnectorSide | undefined {
  if (connector.sides.length === 1) return connector.sides[0];
  return connector.sides.find((side) => side.id === (use.by === "wire" ? "harness" : "device"));
}

function none(reason: string): NoPoint {
  return { kind: "none", reason };
}

/**
 * The one canonical way to write a point: `A1.X1.device:36`, `XC1m:3`, `SP11`, `G2+`, `W12:?`, `A1#gnd`. It is the node key of the graph.
 */
export function pointKey(point: Point): string {
  switch (point.kind) {
    case "contact":
      return `${sideKey(point.connector, point.side)}:${point.cavity.id}`;
    case "splice":
      return point.splice.id;
    case "stud":
      return point.stud.id;
    case "open-end":
      return `${point.wire.id}${OPEN_END}`;
    case "inner":
      return `${point.component.id}#${point.name}`;
  }
}

// No id holds a question mark, so this is no address of anything else.
const OPEN_END = ":?";

/**
 * The addresses a wire ends at. The far end of a wire of which the data names one end only is `W12:?`, a point of its own.
 *
 * @param wire The wire.
 */
export function endAddresses({ id, ends: [first, second] }: Pick<Wire, "id" | "ends">): readonly [string, string] {
  return [first, second ?? `${id}${OPEN_END}`];
}

/** The way to write a half: its short name where it has one, otherwise `connector.half`. */
export function sideKey(connector: Connector, side: ConnectorSide): string {
  return side.name ?? `${connector.id}.${side.id}`;
}
