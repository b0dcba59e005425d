import type { Harness } from "../harness-model/index.ts";
import { findCircuits, type Circuit, type Side, type SideRole } from "./circuits.ts";
import { findNet } from "./find-net.ts";
import { shortestPath } from "./graph/index.ts";
import { collectItems, edgeItem, pathItems, type Item } from "./item.ts";
import { waysInsideModules } from "./passages.ts";
import type { Resolved } from "./resolve.ts";

/** One side of a circuit, as things in order from the consumer outwards. */
interface CircuitSide {
  readonly role: SideRole;
  /** Shortest way from the consumer to each end. */
  readonly ways: readonly (readonly Item[])[];
  /** Everything on the side. */
  readonly items: readonly Item[];
}

/** One circuit that a thing belongs to. */
export interface CircuitPart {
  readonly serves: Item;
  readonly component: string | undefined;
  readonly sides: readonly CircuitSide[];
}

/** The circuits a thing belongs to. */
export interface FoundCircuits {
  readonly kind: "circuit";
  readonly of: Item;
  readonly circuits: readonly CircuitPart[];
  readonly items: readonly Item[];
  readonly fuses: readonly Item[];
  /** Switches and relay contacts on the way; a contact with the coil that moves it. */
  readonly switches: readonly { readonly item: Item; readonly coil?: Item }[];
  readonly nodes: readonly number[];
  readonly edges: readonly number[];
}

/** A thing that belongs to no circuit, such as a stub or a cavity with an open wire: its net is all there is. */
interface NoCircuitAnswer {
  readonly kind: "no-circuit";
  readonly of: Item;
  readonly net: readonly Item[];
}

/**
 * The circuits a thing belongs to: what feeds it, what it serves, where it goes to ground, with fuses, switches and relays.
 *
 * @returns The circuits, smallest first; or no circuit, with the net.
 */
export function findCircuit(harness: Harness, of: Resolved): FoundCircuits | NoCircuitAnswer {
  const item = { type: of.type, id: of.id };
  const circuits = circuitsOf(harness, of);
  if (circuits.length === 0) return { kind: "no-circuit", of: item, net: findNet(harness, of).items };
  const nodes = new Set(circuits.flatMap((circuit) => [...circuit.nodes]));
  const edges = new Set(circuits.flatMap((circuit) => [...circuit.edges]));
  return {
    kind: "circuit",
    of: item,
    circuits: circuits.map((circuit) => describeCircuit(harness, circuit)),
    items: collectItems(harness, { nodes, edges }),
    fuses: fusesIn(harness, edges),
    switches: switchesIn(harness, edges),
    nodes: [...nodes],
    edges: [...edges],
  };
}

/** The circuits that a thing belongs to: those its own edges are in or, where it has none, its points; smallest first. */
export function circuitsOf(harness: Harness, of: Resolved): readonly Circuit[] {
  const { all, ofNode, ofEdge } = findCircuits(harness);
  const positions = new Set<number>();
  const isPoint = of.edges.length === 0 || of.type === "contact" || of.type === "code";
  for (const edge of of.edges) for (const position of ofEdge.get(edge) ?? []) positions.add(position);
  if (isPoint)
    for (const node of of.groups.flat()) for (const position of ofNode.get(node) ?? []) positions.add(position);
  return [...positions].flatMap((position) => all[position] ?? []).sort((a, b) => a.edges.size - b.edges.size);
}

function describeCircuit(harness: Harness, circuit: Circuit): CircuitPart {
  const sides = circuit.sides.map((side) => describeSide(harness, side));
  return { serves: circuit.serves, component: circuit.component, sides };
}

function describeSide(harness: Harness, side: Side): CircuitSide {
  const passage = onlyThrough(harness, side);
  const ways = side.ends.flatMap((end) => {
    if (end === side.terminal) return [];
    const path = shortestPath(harness.index, passage, { from: side.terminal, to: end });
    return path.kind === "found" ? [pathItems(harness, path)] : [];
  });
  return { role: side.role, ways, items: collectItems(harness, side) };
}

function onlyThrough(harness: Harness, side: Side): { nodes: Uint8Array; edges: Uint8Array } {
  const { passage } = waysInsideModules(harness);
  const edges = new Uint8Array(passage.edges.length);
  for (const edge of side.edges) edges[edge] = passage.edges[edge] ?? 0;
  return { nodes: passage.nodes, edges };
}

function fusesIn(harness: Harness, edges: Iterable<number>): readonly Item[] {
  return [...edges].flatMap((number) => {
    const edge = harness.edges[number];
    return edge?.kind === "element" && edge.element.kind === "fuse" ? [edgeItem(edge)] : [];
  });
}

function switchesIn(harness: Harness, edges: Iterable<number>): readonly { item: Item; coil?: Item }[] {
  return [...edges].flatMap((number) => {
    const edge = harness.edges[number];
    if (edge?.kind !== "element") return [];
    if (edge.element.kind === "switch") return [{ item: edgeItem(edge) }];
    if (edge.element.kind !== "contact") return [];
    return [
      { item: edgeItem(edge), coil: { type: "element", id: `${edge.component.id}.${edge.element.of}` } as const },
    ];
  });
}

/** What the data leaves open about the nets of some things: why an answer about them may not be the whole of it. */
interface Unknowns {
  /** Of the things asked about: those on whose nets no supply or consumer is known. */
  readonly withoutCircuit: readonly Item[];
  /** Wires of the nets of which the data names one end only, by id. */
  readonly openWires: readonly string[];
  /** Components that the nets end at and whose inside is not in the data, by id. */
  readonly blankComponents: readonly string[];
}

/** Finds what the data leaves open about the nets of some things. */
export function findUnknowns(harness: Harness, of: readonly Resolved[]): Unknowns {
  const openWires = new Set<string>();
  const blank = new Set<string>();
  for (const item of of) {
    for (const number of findNet(harness, item).nodes) {
      const node = harness.nodes[number];
      if (node?.kind === "open-end") openWires.add(node.wire.id);
      const owner = node?.kind === "contact" ? node.connector.component : undefined;
      if (owner !== undefined && harness.fitted.components.get(owner)?.elements.length === 0) blank.add(owner);
    }
  }
  return {
    withoutCircuit: of
      .filter((item) => circuitsOf(harness, item).length === 0)
      .map(({ type, id }): Item => ({ type, id })),
    openWires: [...openWires],
    blankComponents: [...blank],
  };
}
