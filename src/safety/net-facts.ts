import type { Harness, Net, NetKind, State } from "../model/index.ts";
import { elementRole, railNodes, waysThrough } from "../trace/index.ts";

/** What the labels of one electrical node say it is for. */
export interface NetFacts {
  readonly labels: readonly string[];
  /** Kinds of its labels; empty if it has none. An airbag, high-voltage or boosted kind may come from its neighbour, see {@link findNetFacts}. */
  readonly kinds: ReadonlySet<NetKind>;
  /** The states in which it is driven above system voltage. */
  readonly boostedIn: ReadonlySet<string> | "whenever-not-isolated" | "never";
}

interface Draft {
  readonly labels: Set<string>;
  readonly kinds: Set<NetKind>;
  boostedIn: NetFacts["boostedIn"];
}

const DANGEROUS = ["airbag", "high-voltage", "boosted"] as const satisfies readonly NetKind[];

/**
 * The facts of every net of a harness, by the number its nodes have in the conductor components.
 *
 * A line of which no label tells the kind takes over airbag, high voltage or boosted from a labelled one across a load, so that the return of a
 * squib or the far side of a coil is not taken for harmless; high voltage and boosted also pass fuses, switches and bars. Nothing passes
 * through a module or onto the supply or ground.
 *
 * @param harness The harness.
 * @returns One entry a net; a node's entry stands at `ofNode[node]`.
 */
export function findNetFacts(harness: Harness): { readonly ofNode: Int32Array; readonly nets: readonly NetFacts[] } {
  const { ofNode, count } = waysThrough(harness, "conductors").components;
  const nets: Draft[] = Array.from({ length: count }, () => ({
    labels: new Set(),
    kinds: new Set(),
    boostedIn: "never",
  }));
  harness.edges.forEach((edge, number) => {
    if (edge.kind !== "wire" || edge.wire.net === undefined) return;
    const net = nets[ofNode[harness.index.from[number] ?? -1] ?? -1];
    if (!net) return;
    net.labels.add(edge.wire.net);
    const known = harness.nets.get(edge.wire.net);
    if (known) addKind(net, known);
  });
  spread(harness, nets, ofNode);
  return { ofNode, nets: nets.map(({ labels, ...rest }) => ({ ...rest, labels: [...labels] })) };
}

function addKind(net: Draft, { kind, boostedIn }: Net): void {
  if (kind !== undefined) net.kinds.add(kind);
  if (kind === "boosted" || boostedIn) addBoost(net, boostedIn ? new Set(boostedIn) : "whenever-not-isolated");
}

function addBoost(net: Draft, more: NetFacts["boostedIn"]): void {
  if (net.boostedIn === "never" || more === "whenever-not-isolated") net.boostedIn = more;
  else if (net.boostedIn !== "whenever-not-isolated" && more !== "never")
    net.boostedIn = new Set([...net.boostedIn, ...more]);
}

function spread(harness: Harness, nets: readonly Draft[], ofNode: Int32Array): void {
  const dangerous = nets.flatMap((net, number) => (DANGEROUS.some((kind) => net.kinds.has(kind)) ? [number] : []));
  if (dangerous.length === 0) return;
  const ways = elementWays(harness, ofNode);
  const isTold = nets.map((net) => net.kinds.size > 0);
  for (let at = 0; at < dangerous.length; at++) {
    const number = dangerous[at] ?? -1;
    const from = nets[number];
    for (const way of ways.get(number) ?? []) {
      const to = nets[way.to];
      if (!from || !to || isTold[way.to]) continue;
      const before = to.kinds.size;
      for (const kind of DANGEROUS) if (from.kinds.has(kind) && (way.isLoad || kind !== "airbag")) to.kinds.add(kind);
      if (to.kinds.has("boosted")) addBoost(to, from.boostedIn);
      if (to.kinds.size > before) dangerous.push(way.to);
    }
  }
}

interface Way {
  readonly to: number;
  readonly isLoad: boolean;
}

function elementWays(harness: Harness, ofNode: Int32Array): ReadonlyMap<number, readonly Way[]> {
  const rails = railNodes(harness);
  const railNets = new Set<number>();
  ofNode.forEach((net, node) => {
    if (rails.supply[node] || rails.ground[node]) railNets.add(net);
  });
  const ways = new Map<number, Way[]>();
  const add = (from: number, to: number, isLoad: boolean): void => {
    if (railNets.has(to) || from === to) return;
    const list = ways.get(from);
    if (list) list.push({ to, isLoad });
    else ways.set(from, [{ to, isLoad }]);
  };
  harness.edges.forEach((edge, number) => {
    if (edge.kind !== "element" || edge.component.kind === "module") return;
    const role = elementRole(edge.element);
    if (role === "end") return;
    const from = ofNode[harness.index.from[number] ?? -1] ?? -1;
    const to = ofNode[harness.index.to[number] ?? -1] ?? -1;
    add(from, to, role === "load");
    add(to, from, role === "load");
  });
  return ways;
}

/** Whether a net is driven above system voltage in a state. A boosted net that names no states is, unless the machine is isolated. */
export function isBoostedIn(net: NetFacts, state: State): boolean {
  if (net.boostedIn === "never") return false;
  if (net.boostedIn === "whenever-not-isolated") return !state.conditions.includes("isolated");
  return net.boostedIn.has(state.id);
}
