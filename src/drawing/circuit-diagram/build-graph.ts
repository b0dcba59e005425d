import { addTo, naturalOrder } from "../../base/index.ts";
import { edgeItem, nodeItem, type Item } from "../../connectivity/index.ts";
import {
  mainTerminals,
  type Connector,
  type ConnectorSide,
  type Harness,
  type HarnessEdge,
  type HarnessNode,
} from "../../harness-model/index.ts";
import type {
  Box,
  BoxPin,
  DiagramGraph,
  Gate,
  Joint,
  JointLook,
  Line,
  LineEnd,
  Part,
  Pin,
  Thing,
} from "./diagram-graph.ts";
import type { DiagramScope } from "./diagram-scope.ts";
import { contactName, stubNames } from "./stub-names.ts";

type ContactNode = Extract<HarnessNode, { kind: "contact" }>;
type MatingEdge = Extract<HarnessEdge, { kind: "mating" }>;

/**
 * Turns what is drawn of a harness into things and lines: matings become gates and pins, elements parts, control units boxes, and a point
 * where more than two lines meet a joint.
 *
 * @param scope What is drawn.
 */
export function buildGraph(scope: DiagramScope): DiagramGraph {
  return new GraphBuilder(scope).build();
}

/** Collects things and lines while a diagram is made; not seen outside. */
class GraphBuilder {
  readonly #scope: DiagramScope;
  readonly #harness: Harness;
  readonly #things: Thing[] = [];
  readonly #lines: Line[] = [];
  readonly #boxes = new Map<string, { readonly at: number; readonly pins: BoxPin[] }>();
  /** What an edge has become: a thing of its own or the pin of a box. */
  readonly #ofEdge = new Map<number, LineEnd>();
  /** Ends of wires and inner conductors that are known so far. */
  readonly #bound = new Map<number, LineEnd[]>();
  /** Nodes that lie inside a box. */
  readonly #hidden = new Set<number>();

  constructor(scope: DiagramScope) {
    this.#scope = scope;
    this.#harness = scope.harness;
  }

  build(): DiagramGraph {
    const byKey = (list: readonly { readonly key: string }[], numbers: Iterable<number>): readonly number[] =>
      [...numbers].sort((a, b) => naturalOrder(list[a]?.key ?? "", list[b]?.key ?? ""));
    const edges = byKey(this.#harness.edges, this.#scope.edges);
    for (const edge of edges) this.#addEdge(edge);
    for (const node of byKey(this.#harness.nodes, this.#scope.nodes)) this.#addNode(node);
    for (const edge of edges) this.#addWire(edge);
    for (const { at, pins } of this.#boxes.values()) {
      const box = this.#things[at];
      if (box?.kind === "box") this.#things[at] = { ...box, pins, strong: this.#hasStrongLine(at) };
    }
    return { things: this.#things, lines: this.#lines };
  }

  #hasStrongLine(at: number): boolean {
    return this.#lines.some((line) => line.strong && line.ends.some((end) => end.thing === at));
  }

  #add(thing: Thing): LineEnd {
    this.#things.push(thing);
    return { thing: this.#things.length - 1 };
  }

  #isBoxed(component: string | undefined): component is string {
    return component !== undefined && this.#scope.boxed.has(component);
  }

  /** Nodes of an edge. */
  #ends(edge: number): readonly [number, number] {
    const { from, to } = this.#harness.index;
    return [from[edge] ?? -1, to[edge] ?? -1];
  }

  #addEdge(number: number): void {
    const edge = this.#harness.edges[number];
    const strong = this.#scope.strong.has(number);
    if (!edge || edge.kind === "wire") return;
    if (edge.kind === "mating") {
      this.#ofEdge.set(number, this.#addMating(number, edge, strong));
      return;
    }
    const { component, element } = edge;
    if (this.#isBoxed(component.id)) return;
    if (element.kind === "bar") return;
    const part: Part = { kind: "part", key: edge.key, item: edgeItem(edge), strong, component, element, edge: number };
    this.#ofEdge.set(number, this.#add(part));
  }

  #addMating(number: number, edge: MatingEdge, strong: boolean): LineEnd {
    const nodes = this.#ends(number).flatMap((at): (readonly [number, ContactNode])[] => {
      const node = this.#harness.nodes[at];
      return node?.kind === "contact" ? [[at, node]] : [];
    });
    const owner = edge.connector.component;
    const item = edgeItem(edge);
    if (owner === undefined) {
      const halves = nodes.map(([node, contact]) => ({
        ...{ node, name: contactText(contact), hasPins: hasPins(contact.side) },
      }));
      const gate: Gate = { kind: "gate", key: edge.key, item, strong, halves };
      return this.#add(gate);
    }
    const inner = nodes.find(([, { side }]) => side.id === "device") ?? nodes[1];
    const outer = nodes.find((each) => each !== inner)?.[0] ?? -1;
    const both = nodes.map(([at]) => at);
    if (!this.#isBoxed(owner)) return this.#addPin(edge, { strong, item, outer, nodes: both });
    if (inner) this.#hidden.add(inner[0]);
    return this.#boxPin(this.#boxOf(owner), edge, { item, outer, nodes: both });
  }

  #addPin(
    at: Pick<MatingEdge, "connector" | "cavity">,
    facts: { readonly strong: boolean; readonly item: Item; readonly outer: number; readonly nodes: readonly number[] },
  ): LineEnd {
    const { connector, cavity } = at;
    const name = contactName(this.#harness, connector, cavity.id);
    const component = connector.component ?? connector.id;
    const pin: Pin = { kind: "pin", key: facts.item.id, component, name, cavity: cavity.id, ...facts };
    return this.#add(pin);
  }

  /** The box of a component; made when it is first needed. */
  #boxOf(id: string): string {
    if (this.#boxes.has(id)) return id;
    const component = this.#harness.fitted.components.get(id);
    const inside = this.#scope.opened.has(id) ? this.#insideOf(id) : [];
    const item: Item = { type: "component", id };
    const { thing } = this.#add({
      ...{ kind: "box", key: id, item, strong: false, component, connector: undefined, pins: [], inside },
    });
    this.#boxes.set(id, { at: thing, pins: [] });
    return id;
  }

  #insideOf(id: string): readonly number[] {
    const drawn = [...this.#scope.edges].filter((number) => {
      const edge = this.#harness.edges[number];
      return edge?.kind === "element" && edge.component.id === id;
    });
    const key = (number: number): string => this.#harness.edges[number]?.key ?? "";
    return drawn.sort((a, b) => naturalOrder(key(a), key(b)));
  }

  #connectorBox(connector: Connector): string {
    if (this.#boxes.has(connector.id)) return connector.id;
    const item: Item = { type: "connector", id: connector.id };
    const { thing } = this.#add({
      ...{ kind: "box", key: connector.id, item, strong: false, component: undefined, connector, pins: [], inside: [] },
    } satisfies Box);
    this.#boxes.set(connector.id, { at: thing, pins: [] });
    return connector.id;
  }

  #boxPin(
    box: string,
    at: Pick<MatingEdge, "connector" | "cavity">,
    facts: { readonly item: Item; readonly outer: number; readonly nodes: readonly number[] },
  ): LineEnd {
    const { connector, cavity } = at;
    const name = shortPin(contactName(this.#harness, connector, cavity.id), box);
    return this.#pinOf(box, {
      key: facts.item.id,
      item: facts.item,
      name,
      nodes: facts.nodes,
      net: this.#netAt(facts.outer),
    });
  }

  #pinOf(box: string, pin: BoxPin): LineEnd {
    const entry = this.#boxes.get(box);
    if (!entry) throw new RangeError(`There is no box ${box}`);
    if (entry.pins.every((each) => each.key !== pin.key)) entry.pins.push(pin);
    return { thing: entry.at, pin: pin.key };
  }

  /** The net label of the drawn wires at a node. */
  #netAt(node: number): string | undefined {
    for (const edge of this.#edgesAt(node)) {
      const found = this.#harness.edges[edge];
      if (found?.kind === "wire" && this.#scope.edges.has(edge) && found.wire.net !== undefined) return found.wire.net;
    }
    return undefined;
  }

  #edgesAt(node: number): readonly number[] {
    const { offsets, arcEdges } = this.#harness.index;
    return [...new Set(arcEdges.subarray(offsets[node], offsets[node + 1]))];
  }

  /** Whether an edge is drawn outside of boxes. */
  #isKept(edge: number): boolean {
    const found = this.#harness.edges[edge];
    if (!this.#scope.edges.has(edge)) return false;
    return found?.kind !== "element" || !this.#isBoxed(found.component.id);
  }

  /** Edges at a node that are not drawn and that no box hides. */
  #cutAt(node: number): readonly number[] {
    return this.#edgesAt(node).filter((edge) => {
      const found = this.#harness.edges[edge];
      if (this.#scope.edges.has(edge) || this.#scope.feed?.edges.has(edge)) return false;
      return found?.kind !== "element" || this.#scope.circuits.length === 0 || !this.#isHiddenElement(found);
    });
  }

  #isHiddenElement({ component }: Extract<HarnessEdge, { kind: "element" }>): boolean {
    return component.kind === "battery" || (component.kind === "module" && this.#isBoxed(component.id));
  }

  #addNode(number: number): void {
    const node = this.#harness.nodes[number];
    if (!node || this.#hidden.has(number)) return;
    if (node.kind === "inner" && this.#isBoxed(node.component.id)) return;
    const kept = this.#edgesAt(number).filter((edge) => this.#isKept(edge));
    const ends = this.#boxEnds(number, node);
    const { joint, own } = this.#vertexAt(number, node, { kept, ends });
    if (joint) {
      for (const edge of kept) this.#meet(edge, joint);
      for (const end of ends) this.#join(joint, end, `${node.key} ${end.pin ?? ""}`);
      return;
    }
    const things = [...ends, ...kept.flatMap((edge) => this.#ofEdge.get(edge) ?? [])];
    const target = own ?? things[0];
    const other = own ? things[0] : things[1];
    if (target && other) this.#join(target, other, node.key);
    if (target) for (const edge of kept) if (!this.#ofEdge.has(edge)) this.#bind(edge, target);
  }

  /** Pins of boxes that a node is itself. */
  #boxEnds(number: number, node: HarnessNode): readonly LineEnd[] {
    if (node.kind === "contact") {
      const { connector } = node;
      if (this.#edgesAt(number).some((edge) => this.#harness.edges[edge]?.kind === "mating")) return [];
      const facts = { item: nodeItem(node), outer: number, nodes: [number] };
      const owner = connector.component;
      if (this.#isBoxed(owner)) return [this.#boxPin(this.#boxOf(owner), node, facts)];
      const isFree = connector.component === undefined && connector.kind === "diagnostic";
      return isFree ? [this.#boxPin(this.#connectorBox(connector), node, facts)] : [];
    }
    const owners = this.#edgesAt(number).flatMap((edge) => {
      const found = this.#harness.edges[edge];
      const isInside = found?.kind === "element" && this.#scope.edges.has(edge) && this.#isBoxed(found.component.id);
      return isInside ? [found.component.id] : [];
    });
    return [...new Set(owners)].map((owner) =>
      this.#pinOf(this.#boxOf(owner), {
        key: node.key,
        item: nodeItem(node),
        name: "",
        nodes: [number],
        net: undefined,
      }),
    );
  }

  /** The thing that a node becomes: a joint, a pin or half of a gate of its own, or nothing where a line just goes on. */
  #vertexAt(
    number: number,
    node: HarnessNode,
    { kept, ends }: { readonly kept: readonly number[]; readonly ends: readonly LineEnd[] },
  ): { readonly joint?: LineEnd; readonly own?: LineEnd } {
    const cut = this.#cutAt(number);
    const plain = kept.filter((edge) => !this.#ofEdge.has(edge)).length;
    const isPoint = node.kind === "splice" || node.kind === "stud" || node.kind === "open-end";
    const meets = kept.length + ends.length;
    const isMated = kept.some((edge) => this.#harness.edges[edge]?.kind === "mating");
    if (isPoint || cut.length > 0 || meets > 2 || (plain > 1 && !isMated))
      return { joint: this.#addJoint(number, node, { cut, kept }) };
    if (node.kind === "inner")
      return plain === 0 || meets === 2 ? {} : { joint: this.#addJoint(number, node, { cut, kept }) };
    if (isMated || ends.length > 0) return {};
    const strong = kept.some((edge) => this.#scope.strong.has(edge));
    const facts = { strong, item: nodeItem(node), outer: number, nodes: [number] };
    if (node.connector.component !== undefined) return { own: this.#addPin(node, facts) };
    const half = { node: number, name: contactText(node), hasPins: hasPins(node.side) };
    return { own: this.#add({ kind: "gate", key: node.key, item: nodeItem(node), strong, halves: [half] }) };
  }

  #addJoint(
    number: number,
    node: HarnessNode,
    { cut, kept }: { readonly cut: readonly number[]; readonly kept: readonly number[] },
  ): LineEnd {
    const strong = kept.some((edge) => this.#scope.strong.has(edge));
    const joint: Joint = {
      ...{ kind: "joint", key: node.key, item: nodeItem(node), strong, look: this.#lookOf(number, node), node: number },
      isFrame: node.kind === "stud" && node.stud.role === "ground" && mainTerminals(this.#harness).negative !== number,
      stubs: stubNames(this.#harness, number, cut),
      component: ownerOf(node),
    };
    return this.#add(joint);
  }

  #lookOf(number: number, node: HarnessNode): JointLook {
    const { positive, negative } = mainTerminals(this.#harness);
    if (number === positive || number === this.#scope.feed?.at) return "supply";
    if (number === negative) return "ground";
    return node.kind === "open-end" ? "open" : node.kind;
  }

  /** Joins an edge to a joint: a line to the thing that it has become, else the end of its wire. */
  #meet(edge: number, joint: LineEnd): void {
    const thing = this.#ofEdge.get(edge);
    if (thing) this.#join(joint, thing, `${this.#harness.edges[edge]?.key ?? ""} ${joint.thing}`);
    else this.#bind(edge, joint);
  }

  #join(a: LineEnd, b: LineEnd, key: string): void {
    const strong = [a, b].every(
      ({ thing }) => this.#things[thing]?.strong === true || this.#things[thing]?.kind === "box",
    );
    this.#lines.push({ key: `inside ${key}`, ends: [a, b], wire: undefined, edge: undefined, strong });
  }

  #bind(edge: number, end: LineEnd): void {
    addTo(this.#bound, edge, end);
  }

  #addWire(number: number): void {
    const [a, b] = this.#bound.get(number) ?? [];
    const edge = this.#harness.edges[number];
    if (!a || !b || !edge) return;
    const wire = edge.kind === "wire" ? edge.wire : undefined;
    this.#lines.push({ key: edge.key, ends: [a, b], wire, edge: number, strong: this.#scope.strong.has(number) });
  }
}

/** The part that a point belongs to; the contact of a harness belongs to none. */
function ownerOf(node: HarnessNode): string | undefined {
  if (node.kind === "stud") return node.stud.component;
  if (node.kind === "inner") return node.component.id;
  return node.kind === "contact" && node.side.id === "device" ? node.connector.component : undefined;
}

function contactText({ side, connector, cavity }: ContactNode): string {
  return `${side.name ?? (connector.sides.length > 1 ? `${connector.id}.${side.id}` : connector.id)}:${cavity.id}`;
}

/** Pins and tabs go into sockets. */
function hasPins(side: ConnectorSide): boolean | undefined {
  if (side.contacts === "pins" || side.contacts === "tabs") return true;
  return side.contacts === "sockets" ? false : undefined;
}

/** The name of a pin at its box: without the name of the box. */
function shortPin(name: string, box: string): string {
  return name.startsWith(`${box}.`) || name.startsWith(`${box}:`) ? name.slice(box.length + 1) : name;
}
