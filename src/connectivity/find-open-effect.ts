import { supplyTerminals, type Component, type Element, type Harness } from "../harness-model/index.ts";
import { findCircuits, type Circuit, type Side } from "./circuits.ts";
import { findNet } from "./find-net.ts";
import { components, reach, type Passage } from "./graph/index.ts";
import { collectItems, type Item } from "./item.ts";
import { waysInsideModules, waysThrough } from "./passages.ts";
import type { Resolved } from "./resolve.ts";

/** What a consumer loses: itself (it is what opens), its supply, its ground, a module pin that drives, feeds or reads it, an outlet. */
type Loss = "itself" | "supply" | "ground" | "module" | "outlet";

/** One consumer that stops. */
interface Stopped {
  readonly item: Item;
  readonly component: string | undefined;
  readonly lost: readonly Loss[];
  /** The relay coil or module whose own loss takes this one with it; absent where the opened thing itself does. */
  readonly because?: Item;
}

/** What stops when a thing opens or is unplugged. */
export interface OpenEffect {
  readonly kind: "effect";
  readonly of: Item;
  readonly stopped: readonly Stopped[];
  /** Consumers whose circuit passes the thing but which another way still feeds. */
  readonly stillFed: readonly Item[];
  /**
   * What the conductors show where no circuit is known to pass the thing: the points that it joins, in the groups that are left when it
   * opens. Empty where circuits are known.
   */
  readonly parted: readonly (readonly Item[])[];
}

interface Opened {
  readonly edges: ReadonlySet<number>;
  readonly nodes: ReadonlySet<number>;
}

/**
 * What stops if a thing opens: a wire or fuse that breaks, a contact that does not touch, a connector that is unplugged, a splice or ring
 * that comes loose, a segment that is cut, a component that is taken out.
 *
 * A consumer stops when one of its sides no longer reaches what it reached before. Relay contacts whose coil stops count as open, and
 * modules whose supply or wake input stops count as dead with all their pins, until nothing changes any more; break contacts are taken as able to
 * close all the time.
 */
export function findOpenEffect(harness: Harness, of: Resolved): OpenEffect {
  const opened = whatOpens(of);
  const { all } = findCircuits(harness);
  const stopped = new Map<Circuit, Stopped>();
  let dead: Dead = { coils: new Set(), modules: new Set() };
  for (let isChanged = true; isChanged;) {
    const view = lookAround(harness, opened, dead);
    for (const circuit of all) {
      if (stopped.has(circuit)) continue;
      const lost = lossesOf(circuit, view);
      if (lost.length === 0) continue;
      const because = causeOf(harness, circuit, dead);
      stopped.set(circuit, { item: circuit.serves, component: circuit.component, lost, ...(because && { because }) });
    }
    const next = whatIsDead(harness, stopped.keys());
    isChanged = next.coils.size > dead.coils.size || next.modules.size > dead.modules.size;
    dead = next;
  }
  const stillFed = circuitsPassing(harness, opened).filter((circuit) => !stopped.has(circuit));
  return {
    kind: "effect",
    of: { type: of.type, id: of.id },
    stopped: gatherModules([...stopped.values()], dead),
    stillFed: stillFed.map((circuit) => circuit.serves),
    parted: stopped.size + stillFed.length === 0 ? partedBy(harness, of, opened) : [],
  };
}

/** The points of the nets of a thing, in the groups that conductors still join when it opens; none where it parts nothing. */
function partedBy(harness: Harness, of: Resolved, opened: Opened): readonly (readonly Item[])[] {
  const { nodes } = findNet(harness, of);
  const passage = narrowed(harness, waysThrough(harness, "conductors").passage, {
    opened,
    dead: { coils: new Set(), modules: new Set() },
  });
  const { ofNode } = components(harness.index, passage);
  const groups = new Map<number, number[]>();
  for (const node of nodes) {
    if (opened.nodes.has(node)) continue;
    const part = ofNode[node] ?? -1;
    groups.set(part, [...(groups.get(part) ?? []), node]);
  }
  const parts = [...groups.values()].map((part) => collectItems(harness, { nodes: part, edges: [] }));
  return parts.length > 1 ? parts : [];
}

/** A dead module is named once, in the place of everything inside it. */
function gatherModules(stopped: readonly Stopped[], dead: Dead): readonly Stopped[] {
  const named = new Set<string>();
  return stopped.flatMap((each) => {
    if (each.component === undefined || !dead.modules.has(each.component)) return [each];
    if (named.has(each.component)) return [];
    named.add(each.component);
    return [{ ...each, item: { type: "component", id: each.component } }];
  });
}

function circuitsPassing(harness: Harness, opened: Opened): readonly Circuit[] {
  const { all, ofEdge, ofNode } = findCircuits(harness);
  const passing = new Set<number>();
  for (const edge of opened.edges) for (const position of ofEdge.get(edge) ?? []) passing.add(position);
  for (const node of opened.nodes) for (const position of ofNode.get(node) ?? []) passing.add(position);
  return [...passing].flatMap((position) => all[position] ?? []);
}

/** A splice or stud opens as a point, everything else as the edges it stands for. */
function whatOpens(of: Resolved): Opened {
  const isPoint = of.type === "splice" || of.type === "stud" || of.edges.length === 0;
  return { edges: new Set(of.edges), nodes: new Set(isPoint ? of.groups.flat() : []) };
}

/** What has stopped and takes others with it. */
interface Dead {
  /** Coils by element id, such as `A3.K1-coil`. */
  readonly coils: ReadonlySet<string>;
  /** Modules by component id. */
  readonly modules: ReadonlySet<string>;
}

function whatIsDead(harness: Harness, stopped: Iterable<Circuit>): Dead {
  const coils = new Set<string>();
  const modules = new Set<string>();
  for (const circuit of stopped) {
    const edge = harness.edges[harness.edgeNumbers.get(circuit.serves.id) ?? -1];
    if (edge?.kind !== "element") continue;
    if (edge.element.kind === "coil") coils.add(circuit.serves.id);
    if (edge.component.kind === "module" && runsOn(edge.component, edge.element)) modules.add(edge.component.id);
  }
  return { coils, modules };
}

/**
 * Whether a module runs on an element: the load at the supply or at the wake input that its document names; else its load of least
 * resistance, as against an input that only senses.
 */
function runsOn({ needs, elements }: Component, { id, kind, between }: Element): boolean {
  if (kind !== "load") return false;
  if (needs) return between[1] === needs.negative && (between[0] === needs.positive || between[0] === needs.wake);
  const loads = elements.filter((element) => element.kind === "load");
  return loads.sort((a, b) => a.resistanceOhm - b.resistanceOhm)[0]?.id === id;
}

/** What can still be reached. */
interface View {
  readonly opened: Opened;
  readonly supply: Uint8Array;
  readonly ground: Uint8Array;
  readonly partOfNode: Int32Array;
  readonly isPinDead: (node: number) => boolean;
}

function lookAround(harness: Harness, opened: Opened, dead: Dead): View {
  const inside = narrowed(harness, waysInsideModules(harness).passage, { opened, dead });
  const outside = narrowed(harness, waysThrough(harness, "switches-and-fuses").passage, { opened, dead });
  const terminals = supplyTerminals(harness);
  const from = (nodes: readonly number[]): Uint8Array => reach(harness.index, inside, nodes).reached;
  return {
    opened,
    supply: from(terminals.positive),
    ground: from(terminals.negative),
    partOfNode: components(harness.index, outside).ofNode,
    isPinDead: (number) => {
      const node = harness.nodes[number];
      return (
        node?.kind === "contact" && node.connector.component !== undefined && dead.modules.has(node.connector.component)
      );
    },
  };
}

function narrowed(harness: Harness, passage: Passage, without: { opened: Opened; dead: Dead }): Passage {
  const edges = passage.edges.slice();
  const nodes = passage.nodes.slice();
  for (const edge of without.opened.edges) edges[edge] = 0;
  for (const node of without.opened.nodes) nodes[node] = 0;
  harness.edges.forEach((edge, number) => {
    if (edge.kind !== "element" || edge.element.kind !== "contact" || edge.element.form !== "make") return;
    if (without.dead.coils.has(`${edge.component.id}.${edge.element.of}`)) edges[number] = 0;
  });
  return { edges, nodes };
}

function lossesOf(circuit: Circuit, view: View): readonly Loss[] {
  const lost = new Set<Loss>();
  if (circuit.ownEdges.some((edge) => view.opened.edges.has(edge))) lost.add("itself");
  for (const side of circuit.sides) for (const loss of sideLosses(side, view)) lost.add(loss);
  return [...lost];
}

function sideLosses(side: Side, view: View): readonly Loss[] {
  switch (side.role) {
    case "supply":
      return view.supply[side.terminal] ? [] : ["supply"];
    case "ground":
      return view.ground[side.terminal] ? [] : ["ground"];
    case "module":
    case "outlet": {
      const part = view.partOfNode[side.terminal] ?? -1;
      const isLost = side.ends.some((end) => part < 0 || view.partOfNode[end] !== part || view.isPinDead(end));
      return isLost ? [side.role] : [];
    }
    case "nothing":
      return [];
  }
}

/** The dead coil or module that a circuit hangs on, if there is one. */
function causeOf(harness: Harness, circuit: Circuit, dead: Dead): Item | undefined {
  for (const number of circuit.edges) {
    const edge = harness.edges[number];
    if (edge?.kind !== "element" || edge.element.kind !== "contact") continue;
    const id = `${edge.component.id}.${edge.element.of}`;
    if (dead.coils.has(id)) return { type: "element", id };
  }
  for (const end of circuit.sides.flatMap((side) => side.ends)) {
    const node = harness.nodes[end];
    const id = node?.kind === "contact" ? node.connector.component : undefined;
    if (id !== undefined && dead.modules.has(id)) return { type: "component", id };
  }
  return undefined;
}
