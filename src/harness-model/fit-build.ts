import {
  buildAddressBook,
  lookUpPoint,
  pointKey,
  endAddresses,
  type AddressBook,
  type AddressUse,
  type Point,
} from "./address-book.ts";
import { makeFitting, type Fitting } from "./fitting.ts";
import { buildGraphIndex } from "./graph-index.ts";
import type { FittedItems, Harness } from "./harness.ts";
import type { HarnessEdge, HarnessNode } from "./harness-parts.ts";
import type { Cavity, ConnectorSide } from "./schema/connector.ts";
import type { HarnessDocument } from "./schema/document.ts";
import type { Component, Element } from "./schema/element.ts";

/**
 * Fits a document in one build and makes the harness that questions are asked of.
 *
 * A contact exists where a fitted wire or element ends; the device half of a connector has a contact wherever its harness half has
 * one. Two fitted halves of a connector mate in every cavity in which both have a contact.
 *
 * @param document A checked document.
 * @param buildId Which build.
 * @returns The harness, or undefined if the document has no such build.
 * @throws RangeError if the document was not checked and an end leads nowhere.
 */
export function fitBuild(document: HarnessDocument, buildId: string): Harness | undefined {
  const build = document.builds.find((each) => each.id === buildId);
  if (!build) return undefined;
  const isFitted = makeFitting(build);
  const book = buildAddressBook(document);
  const fitted = fittedThings(document, isFitted);
  const maker = new GraphMaker(book);
  for (const wire of fitted.wires.values()) {
    maker.join({ kind: "wire", key: wire.id, wire }, endAddresses(wire), { by: "wire" });
  }
  for (const component of fitted.components.values()) addElements(maker, component, isFitted);
  for (const splice of fitted.splices.values()) maker.node({ kind: "splice", splice });
  for (const stud of fitted.terminalStuds.values()) maker.node({ kind: "stud", stud });
  addMatings(maker, fitted);
  const { nodes, edges, nodeNumbers, edgeNumbers, from, to } = maker;
  return Object.freeze({
    document,
    build,
    index: buildGraphIndex(nodes.length, from, to),
    nodes,
    edges,
    nodeNumbers,
    edgeNumbers,
    book,
    fitted,
    segments: new Map(document.segments.map((segment) => [segment.id, segment])),
    nets: new Map(document.nets.map((net) => [net.id, net])),
  });
}

function fittedThings(document: HarnessDocument, isFitted: Fitting): FittedItems {
  const pick = <Thing extends { readonly id: string; readonly when?: string | undefined }>(items: readonly Thing[]) =>
    new Map<string, Thing>(items.filter((item) => isFitted(item.when)).map((item) => [item.id, item]));
  const connectors = pick(document.connectors);
  const sides = new Map<string, readonly ConnectorSide[]>();
  for (const connector of connectors.values()) {
    sides.set(
      connector.id,
      connector.sides.filter((side) => isFitted(side.when)),
    );
  }
  return {
    wires: pick(document.wires),
    splices: pick(document.splices),
    terminalStuds: pick(document.terminalStuds),
    components: pick(document.components),
    connectors,
    sides,
  };
}

function addElements(maker: GraphMaker, component: Component, isFitted: Fitting): void {
  const use: AddressUse = { by: "element", component };
  for (const element of component.elements) {
    if (!isFitted(element.when)) continue;
    for (const [key, ends] of elementEdges(component, element))
      maker.join({ kind: "element", key, component, element }, ends, use);
  }
}

/** The edges an element makes: one, or two meeting at the tap of a divider. */
function elementEdges(
  component: Component,
  element: Element,
): readonly (readonly [string, readonly [string, string]])[] {
  const key = `${component.id}.${element.id}`;
  if (element.kind !== "divider") return [[key, element.between]];
  return [
    [`${key}.top`, [element.between[0], element.tap]],
    [`${key}.bottom`, [element.tap, element.between[1]]],
  ];
}

function addMatings(maker: GraphMaker, fitted: FittedItems): void {
  for (const connector of fitted.connectors.values()) {
    const [first, second] = fitted.sides.get(connector.id) ?? [];
    if (!first || !second) continue;
    for (const cavity of connector.cavities) {
      const [a, b] = [maker.contact(first, cavity), maker.contact(second, cavity)];
      // A device pin is there whether or not the inside behind it is described.
      const pin = (side: ConnectorSide, other: number | undefined): number | undefined =>
        side.id === "device" && other !== undefined
          ? maker.node({ kind: "contact", connector, side, cavity })
          : undefined;
      const from = a ?? pin(first, b);
      const to = b ?? pin(second, a);
      if (from === undefined || to === undefined) continue;
      maker.edge({ kind: "mating", key: `${connector.id}:${cavity.id}`, connector, cavity }, from, to);
    }
  }
}

/** Collects nodes and edges while a harness is made; not seen outside. */
class GraphMaker {
  readonly nodes: HarnessNode[] = [];
  readonly edges: HarnessEdge[] = [];
  readonly from: number[] = [];
  readonly to: number[] = [];
  readonly nodeNumbers = new Map<string, number>();
  readonly edgeNumbers = new Map<string, number>();
  /** Most nodes are contacts: they are known by half and cavity, without their address put together each time. */
  readonly #contacts = new Map<ConnectorSide, Map<string, number>>();
  readonly #book: AddressBook;

  constructor(book: AddressBook) {
    this.#book = book;
  }

  contact(side: ConnectorSide, cavity: Cavity): number | undefined {
    return this.#contacts.get(side)?.get(cavity.id);
  }

  node(point: Point): number {
    if (point.kind !== "contact") {
      const key = pointKey(point);
      return this.nodeNumbers.get(key) ?? this.#add(point, key);
    }
    const { side, cavity } = point;
    const known = this.contact(side, cavity);
    if (known !== undefined) return known;
    const number = this.#add(point, pointKey(point));
    const cavities = this.#contacts.get(side);
    if (cavities) cavities.set(cavity.id, number);
    else this.#contacts.set(side, new Map([[cavity.id, number]]));
    return number;
  }

  #add(point: Point, key: string): number {
    const number = this.nodes.length;
    this.nodes.push(nodeOf(point, key));
    this.nodeNumbers.set(key, number);
    return number;
  }

  edge(edge: HarnessEdge, from: number, to: number): void {
    this.edgeNumbers.set(edge.key, this.edges.length);
    this.edges.push(edge);
    this.from.push(from);
    this.to.push(to);
  }

  join(edge: HarnessEdge, ends: readonly [string, string], use: AddressUse): void {
    const [from, to] = ends.map((address) => {
      const point = lookUpPoint(this.#book, address, use);
      if (point.kind === "none")
        throw new RangeError(`Cannot fit "${edge.key}": "${address}" leads nowhere: ${point.reason}`);
      return this.node(point);
    });
    if (from === undefined || to === undefined) throw new RangeError(`Cannot fit "${edge.key}": it needs two ends`);
    this.edge(edge, from, to);
  }
}

/** Written out by kind: a node is made for every contact of the machine, and a spread costs several times as much. */
function nodeOf(point: Point, key: string): HarnessNode {
  const { kind } = point;
  switch (kind) {
    case "contact":
      return { kind, key, connector: point.connector, side: point.side, cavity: point.cavity };
    case "splice":
      return { kind, key, splice: point.splice };
    case "stud":
      return { kind, key, stud: point.stud };
    case "open-end":
      return { kind, key, wire: point.wire };
    case "inner":
      return { kind, key, component: point.component, name: point.name };
  }
}
