import { addTo, keptFor } from "../base/index.ts";
import { isBattery, mainTerminals, supplyTerminals, type Harness, type HarnessNode } from "../harness-model/index.ts";
import { betweenNodes } from "./graph/index.ts";
import { componentTerminals, edgeItem, nodeItem, type Item } from "./item.ts";
import { elementRole, waysInsideModules, waysThrough, type PassageFacts } from "./passages.ts";

/** What one side of a consumer runs to. `module`: a control module's pin; `outlet`: a free connector such as a diagnostic one. */
export type SideRole = "supply" | "ground" | "module" | "outlet" | "nothing";

/** One terminal of a consumer and all that lies between it and where it ends. */
export interface Side {
  readonly role: SideRole;
  /** The terminal, as a node number. */
  readonly terminal: number;
  /** Where it ends, as node numbers: the main supply or ground, or module pins. */
  readonly ends: readonly number[];
  readonly nodes: ReadonlySet<number>;
  readonly edges: ReadonlySet<number>;
}

/** A circuit: one consumer, module input or outlet, with its sides out to supply, ground or module pins. */
export interface Circuit {
  /** The element or contact the circuit serves. */
  readonly serves: Item;
  /** The component it belongs to, if any. */
  readonly component: string | undefined;
  /** The edges of the consumer itself; none for an outlet. */
  readonly ownEdges: readonly number[];
  readonly sides: readonly Side[];
  readonly nodes: ReadonlySet<number>;
  readonly edges: ReadonlySet<number>;
}

/** Every circuit of a harness, and which circuits each node and edge belongs to (as positions in `all`). */
interface Circuits {
  readonly all: readonly Circuit[];
  readonly ofNode: ReadonlyMap<number, readonly number[]>;
  readonly ofEdge: ReadonlyMap<number, readonly number[]>;
}

/**
 * Finds every circuit of a harness.
 *
 * A circuit starts at a consumer and goes out from each of its terminals through wires, contacts, splices, fuses, switches, relay contacts
 * and bars: to the main supply and the main ground where they are reached, otherwise to the module pins that are. Switches and relay
 * contacts count as able to close. Inputs and outputs of modules that no load lies behind, and free connectors, have circuits of their own.
 * What is no part of any way to an end, such as a stub, belongs to no circuit.
 */
export const findCircuits = keptFor((harness: Harness): Circuits => {
  const seeds = findSeeds(harness);
  const all = seeds.map((seed) => makeCircuit(harness, seed)).filter(leavesItsModule);
  const ofNode = new Map<number, number[]>();
  const ofEdge = new Map<number, number[]>();
  const note = (map: Map<number, number[]>, numbers: Iterable<number>, position: number): void => {
    for (const number of numbers) {
      addTo(map, number, position);
    }
  };
  all.forEach((circuit, position) => {
    note(ofNode, circuit.nodes, position);
    note(ofEdge, circuit.edges, position);
  });
  return { all, ofNode, ofEdge };
});

/** A pull-up, a driver or a regulator whose pin leads nowhere of its own says nothing that the consumers behind it do not. */
function leavesItsModule(circuit: Circuit): boolean {
  return circuit.edges.size > circuit.ownEdges.length || circuit.sides.every((side) => side.role !== "module");
}

interface Seed {
  readonly serves: Item;
  readonly component: string | undefined;
  readonly edges: readonly number[];
  readonly terminals: readonly number[];
  readonly ways: PassageFacts;
}

/** What circuits start from: loads, module inputs and outputs, sources other than batteries, free connectors. */
function findSeeds(harness: Harness): readonly Seed[] {
  const series = waysThrough(harness, "switches-and-fuses");
  const seeds = new Map<string, Seed & { edges: number[] }>();
  const { from, to } = harness.index;
  const main = mainTerminals(harness);
  harness.edges.forEach((edge, number) => {
    if (edge.kind !== "element") return;
    const isInModule = edge.component.kind === "module";
    const role = elementRole(edge.element);
    if (role === "series") return;
    const ends = [from[number] ?? -1, to[number] ?? -1];
    if (isBattery(edge) || ends.some((end) => main.positive === end)) return;
    const item = edgeItem(edge);
    const before = seeds.get(item.id);
    const terminals = isInModule && role === "end" ? ends.filter((end) => harness.nodes[end]?.kind !== "inner") : ends;
    if (before) {
      before.edges.push(number);
      seeds.set(item.id, { ...before, terminals: [...new Set([...before.terminals, ...terminals])] });
    } else {
      const ways = isInModule && role === "load" ? waysInsideModules(harness) : series;
      seeds.set(item.id, { serves: item, component: edge.component.id, edges: [number], terminals, ways });
    }
  });
  harness.nodes.forEach((node, number) => {
    if (!isOutlet(node)) return;
    seeds.set(node.key, { serves: nodeItem(node), component: undefined, edges: [], terminals: [number], ways: series });
  });
  return [...seeds.values()];
}

function isOutlet(node: HarnessNode): boolean {
  return node.kind === "contact" && node.connector.kind === "diagnostic" && node.connector.sides.length === 1;
}

function makeCircuit(harness: Harness, seed: Seed): Circuit {
  const sides = seed.terminals.map((terminal) => makeSide(harness, seed.ways, terminal));
  const nodes = new Set(seed.terminals);
  const edges = new Set(seed.edges);
  for (const side of sides) {
    side.nodes.forEach((node) => nodes.add(node));
    side.edges.forEach((edge) => edges.add(edge));
  }
  return { serves: seed.serves, component: seed.component, ownEdges: seed.edges, sides, nodes, edges };
}

function makeSide(harness: Harness, ways: PassageFacts, terminal: number): Side {
  const { role, ends } = findEnds(harness, ways, terminal);
  const nodes = new Set<number>();
  const edges = new Set<number>();
  for (const end of ends) {
    const between = betweenNodes(ways.blocks, { from: terminal, to: end });
    if (between.kind !== "found") continue;
    between.nodes.forEach((node) => nodes.add(node));
    between.edges.forEach((edge) => edges.add(edge));
  }
  return { role, terminal, ends, nodes, edges };
}

function findEnds(harness: Harness, ways: PassageFacts, terminal: number): { role: SideRole; ends: readonly number[] } {
  const { ofNode } = ways.components;
  const part = ofNode[terminal] ?? -1;
  const terminals = supplyTerminals(harness);
  for (const [role, nodes] of [
    ["supply", terminals.positive],
    ["ground", terminals.negative],
  ] as const) {
    const end = nodes.find((node) => ofNode[node] === part);
    if (end !== undefined) return { role, ends: [end] };
  }
  const pins = modulePins(harness).get(part) ?? [];
  const modules = pins.filter((pin) => pin.role === "module").map((pin) => pin.node);
  const outlets = pins.filter((pin) => pin.role === "outlet").map((pin) => pin.node);
  if (modules.length > 0) return { role: "module", ends: [...modules, ...outlets] };
  return outlets.length > 0 ? { role: "outlet", ends: outlets } : { role: "nothing", ends: [] };
}

interface Pin {
  readonly node: number;
  readonly role: "module" | "outlet";
}

/** Pins of modules and free connectors by the part of the series-wide graph they lie in. */
const modulePins = keptFor((harness: Harness): ReadonlyMap<number, readonly Pin[]> => {
  const { ofNode } = waysThrough(harness, "switches-and-fuses").components;
  const pins = new Map<number, Pin[]>();
  const add = (node: number, role: Pin["role"]): void => {
    const part = ofNode[node] ?? -1;
    addTo(pins, part, { node, role });
  };
  for (const component of harness.fitted.components.values()) {
    if (component.kind !== "module") continue;
    for (const terminal of componentTerminals(harness, component.id).flat()) add(terminal, "module");
  }
  harness.nodes.forEach((node, number) => {
    if (isOutlet(node)) add(number, "outlet");
  });
  return pins;
});
