import { addTo } from "../base/index.ts";
import type { Harness, HarnessEdge } from "../harness-model/index.ts";
import { elementRole, railNodes, resolveItem, type Item } from "../connectivity/index.ts";
import { readGuardedName, type GuardedKind } from "./guarded-names.ts";
import { netsAcross, railNets, type Across } from "./net-walk.ts";

/** Why something counts as airbag or high voltage. */
export interface Guard {
  readonly kind: GuardedKind;
  /** The reason as the end of a sentence: `connector X7 reads "driver airbag"`. */
  readonly because: string;
}

/** All guards of a harness in one build. */
export interface Guards {
  /** By net: whatever lies on it. */
  readonly ofNet: ReadonlyMap<number, readonly Guard[]>;
  /** By node and by wire: things that sit on the supply or the ground of the machine, which is not guarded with them. */
  readonly ofNode: ReadonlyMap<number, readonly Guard[]>;
  readonly ofEdge: ReadonlyMap<number, readonly Guard[]>;
  /** Nets that a person has declared harmless. */
  readonly harmless: ReadonlySet<number>;
}

/** Above this a source makes high voltage: voltage class B of direct current. ISO 6469-3, from memory. */
const MOST_VOLT = 60;

/**
 * Finds what no check is suggested on.
 *
 * A line counts as airbag or high voltage if the document says so, if its name or note does, or that of a part, connector, cavity, splice,
 * stud or element it ends at, or if a source of more than 60 V feeds it. From such a line the guard spreads over every element outside
 * control units, until their terminals and the supply and ground of the machine; up its feed it ends at the fuse. What is named but sits on
 * the supply or ground itself is guarded alone. A line that a person has declared harmless is guarded only if the document says so itself.
 *
 * @param ofNode The net of a node.
 *
 * Source: how far a guard spreads is common practice, no source.
 */
export function findGuards(harness: Harness, ofNode: Int32Array): Guards {
  return new GuardFinder(harness, ofNode).find();
}

class GuardFinder {
  readonly #harness: Harness;
  readonly #ofNode: Int32Array;
  readonly #rails: ReadonlySet<number>;
  readonly #harmless: ReadonlySet<number>;
  readonly #ofNet = new Map<number, Guard[]>();
  readonly #ofNodes = new Map<number, Guard[]>();
  readonly #ofEdge = new Map<number, Guard[]>();
  #depths: ReadonlyMap<number, number> = new Map();
  readonly #names = new Map<string, ReturnType<typeof readGuardedName>>();

  constructor(harness: Harness, ofNode: Int32Array) {
    this.#harness = harness;
    this.#ofNode = ofNode;
    this.#rails = railNets(harness, ofNode);
    this.#harmless = harmlessNets(harness, ofNode);
  }

  find(): Guards {
    this.#readSources();
    this.#depths = feedDepths(this.#harness, this.#ofNode, this.#ofNet);
    this.#readEdges();
    this.#readNodes();
    this.#spread();
    return { ofNet: this.#ofNet, ofNode: this.#ofNodes, ofEdge: this.#ofEdge, harmless: this.#harmless };
  }

  #readSources(): void {
    const { document, edges, index } = this.#harness;
    if (document.system.nominalVolt > MOST_VOLT) {
      const because = `the machine runs on ${document.system.nominalVolt} V`;
      for (const net of new Set(this.#ofNode)) add(this.#ofNet, net, { kind: "high-voltage", because });
    }
    edges.forEach((edge, number) => {
      if (edge.kind !== "element" || edge.element.kind !== "source") return;
      if (Math.abs(edge.element.voltageVolt) <= MOST_VOLT) return;
      const because = `${edge.key} supplies ${edge.element.voltageVolt} V`;
      for (const end of [index.from[number], index.to[number]])
        add(this.#ofNet, this.#ofNode[end ?? -1] ?? -1, { kind: "high-voltage", because });
    });
  }

  #readEdges(): void {
    this.#harness.edges.forEach((edge, number) => {
      if (edge.kind === "wire") this.#readWire(edge, number);
      if (edge.kind !== "element") return;
      const { component, element } = edge;
      const own = this.#named([element.id, element.label], [], `element ${component.id}.${element.id}`);
      const ends = this.#endsOf(number);
      ends.forEach((end, at) => {
        const [net, other] = [end, ends[1 - at] ?? -1].map((node) => this.#ofNode[node] ?? -1);
        if (this.#isUpFuse(other ?? -1, { to: net ?? -1, edge: number })) return;
        for (const guard of [...own, ...this.#ofPart(component.id)]) this.#guardNode(end, guard);
      });
    });
  }

  #readWire({ wire }: Extract<HarnessEdge, { kind: "wire" }>, number: number): void {
    const net = wire.net === undefined ? undefined : this.#harness.nets.get(wire.net);
    const isStated = net?.kind === "airbag" || net?.kind === "high-voltage";
    const stated: readonly Guard[] = isStated
      ? [{ kind: net.kind as GuardedKind, because: `net ${net.id} is ${net.kind} in the harness data` }]
      : [];
    // An injector line that its driver lifts for a moment has rules of its own, whatever voltage its name tells.
    const labels = net?.kind === "boosted" ? [] : [wire.net, net?.label];
    const named = this.#named([wire.id, ...labels], [wire.note, net?.note], `wire ${wire.id}`);
    for (const guard of stated) this.#guardWire(number, guard, true);
    for (const guard of named) this.#guardWire(number, guard, false);
  }

  #readNodes(): void {
    this.#harness.nodes.forEach((node, number) => {
      const guards: Guard[] = [];
      if (node.kind === "contact") {
        const { connector, cavity } = node;
        const names = [connector.id, connector.label, ...connector.sides.flatMap((each) => [each.name, each.label])];
        guards.push(...this.#named(names, [connector.note], `connector ${connector.id}`));
        guards.push(...this.#named([], [cavity.note], `cavity ${connector.id}:${cavity.id}`));
        const ofPart = connector.component === undefined ? [] : this.#ofPart(connector.component);
        if (ofPart.length > 0 && !this.#isAboveFuse(connector.component ?? "", number)) guards.push(...ofPart);
      } else if (node.kind === "splice") {
        guards.push(...this.#named([node.splice.id, node.splice.label], [], `splice ${node.splice.id}`));
      } else if (node.kind === "stud") {
        guards.push(...this.#named([node.stud.id, node.stud.label], [], `terminal stud ${node.stud.id}`));
        if (node.stud.component !== undefined) guards.push(...this.#ofPart(node.stud.component));
      }
      for (const guard of guards) this.#guardNode(number, guard);
    });
  }

  /** Whether a node of a part lies above one of its fuses: a fuse holder with a guarded name is guarded from its fuse on. */
  #isAboveFuse(component: string, node: number): boolean {
    const net = this.#ofNode[node] ?? -1;
    if (this.#depths.get(net) === undefined) return false;
    return this.#harness.edges.some((edge, number) => {
      if (edge.kind !== "element" || edge.component.id !== component) return false;
      const nets = this.#endsOf(number).map((end) => this.#ofNode[end] ?? -1);
      const other = nets.find((each) => each !== net);
      return nets.includes(net) && other !== undefined && this.#isUpFuse(other, { to: net, edge: number });
    });
  }

  #ofPart(id: string): readonly Guard[] {
    const part = this.#harness.fitted.components.get(id);
    return part ? this.#named([part.id, part.label], [part.note], `part ${id}`) : [];
  }

  /** What names and notes give away; a voltage in figures counts in names only. */
  #named(
    names: readonly (string | undefined)[],
    notes: readonly (string | undefined)[],
    what: string,
  ): readonly Guard[] {
    const guards: Guard[] = [];
    const read = (text: string | undefined, figures: boolean): void => {
      if (text === undefined) return;
      // Numbers tell names of a row apart; only beside a V do they tell anything of the line.
      const key = `${String(figures)} ${/v/iu.test(text) ? text : text.replace(/\d+/gu, "0")}`;
      if (!this.#names.has(key)) this.#names.set(key, readGuardedName(text, { figures }));
      const found = this.#names.get(key);
      if (!found || guards.some(({ kind }) => kind === found.kind)) return;
      guards.push({ kind: found.kind, because: `${what} reads "${text}"` });
    };
    for (const name of names) read(name, true);
    for (const note of notes) read(note, false);
    return guards;
  }

  #endsOf(edge: number): readonly number[] {
    const { from, to } = this.#harness.index;
    return [from[edge] ?? -1, to[edge] ?? -1];
  }

  #guardNode(node: number, guard: Guard): void {
    const net = this.#ofNode[node] ?? -1;
    if (this.#harmless.has(net)) return;
    if (this.#rails.has(net)) add(this.#ofNodes, node, guard);
    else add(this.#ofNet, net, guard);
  }

  #guardWire(edge: number, guard: Guard, isStated: boolean): void {
    const ends = this.#endsOf(edge);
    const net = this.#ofNode[ends[0] ?? -1] ?? -1;
    if (this.#harmless.has(net) && !isStated) return;
    if (!this.#rails.has(net) || (isStated && guard.kind === "high-voltage")) {
      add(this.#ofNet, net, guard);
      return;
    }
    add(this.#ofEdge, edge, guard);
    for (const end of ends) add(this.#ofNodes, end, guard);
  }

  #spread(): void {
    if (this.#ofNet.size === 0) return;
    const across = netsAcross(this.#harness, this.#ofNode);
    const queue = [...this.#ofNet.keys()];
    for (const net of queue) {
      for (const way of across.get(net) ?? []) {
        if (this.#harmless.has(way.to) || this.#isUpFuse(net, way)) continue;
        for (const { kind } of this.#ofNet.get(net) ?? []) {
          const key = this.#harness.edges[way.edge]?.key ?? "";
          const isNew = add(this.#ofNet, way.to, { kind, because: `only ${key} is between it and such a line` });
          if (isNew) queue.push(way.to);
        }
      }
    }
  }

  /** Whether a step leads up through a fuse towards the supply: the feed is guarded from its fuse on, not what feeds others too. */
  #isUpFuse(net: number, { to, edge }: Across): boolean {
    const crossed = this.#harness.edges[edge];
    if (crossed?.kind !== "element" || crossed.element.kind !== "fuse") return false;
    const above = this.#depths.get(to);
    return above !== undefined && above < (this.#depths.get(net) ?? Infinity);
  }
}

/** Adds a guard, one of a kind; says whether it is new. */
function add(map: Map<number, Guard[]>, at: number, guard: Guard): boolean {
  const list = map.get(at);
  if (!list) map.set(at, [guard]);
  else if (list.some(({ kind }) => kind === guard.kind)) return false;
  else list.push(guard);
  return true;
}

/** Steps from the low-voltage supply of the machine to each net that it feeds through fuses, switches, contacts and bars alone. */
function feedDepths(
  harness: Harness,
  ofNode: Int32Array,
  guarded: ReadonlyMap<number, readonly Guard[]>,
): ReadonlyMap<number, number> {
  const depths = new Map<number, number>();
  const { supply } = railNodes(harness);
  ofNode.forEach((net, node) => {
    const isHigh = guarded.get(net)?.some(({ kind }) => kind === "high-voltage") ?? false;
    if (supply[node] && !isHigh) depths.set(net, 0);
  });
  const steps = new Map<number, number[]>();
  harness.edges.forEach((edge, number) => {
    if (edge.kind !== "element" || edge.component.kind === "module" || elementRole(edge.element) !== "series") return;
    const from = ofNode[harness.index.from[number] ?? -1] ?? -1;
    const to = ofNode[harness.index.to[number] ?? -1] ?? -1;
    for (const [one, other] of [
      [from, to],
      [to, from],
    ] as const) {
      addTo(steps, one, other);
    }
  });
  // The map grows while it is walked.
  for (const [net, depth] of depths)
    for (const next of steps.get(net) ?? []) if (!depths.has(next)) depths.set(next, depth + 1);
  return depths;
}

/** The nets that a person has declared to be neither airbag nor high voltage. */
function harmlessNets(harness: Harness, ofNode: Int32Array): ReadonlySet<number> {
  const nets = new Set<number>();
  for (const { what, about } of harness.document.statements ?? []) {
    if (what !== "harmless") continue;
    for (const type of ["contact", "connector", "wire", "splice", "stud"] as const satisfies readonly Item["type"][]) {
      const found = resolveItem(harness, { type, id: about });
      if (found?.type !== type) continue;
      for (const node of found.groups.flat()) nets.add(ofNode[node] ?? -1);
    }
    harness.edges.forEach((edge, number) => {
      if (edge.kind === "wire" && edge.wire.net === about) nets.add(ofNode[harness.index.from[number] ?? -1] ?? -1);
    });
  }
  return nets;
}
