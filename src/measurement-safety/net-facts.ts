import type { Harness, HarnessNode, Net, NetKind, State } from "../harness-model/index.ts";
import { waysThrough } from "../connectivity/index.ts";
import { findGuards, type Guard, type Guards } from "./find-guards.ts";
import { netsAcross, railNets } from "./net-walk.ts";

/** What the document says of one electrical node. */
export interface NetFacts {
  readonly labels: readonly string[];
  /** Kinds of its labels, and those that its guards add; empty if nothing is known. */
  readonly kinds: ReadonlySet<NetKind>;
  /** Why it counts as airbag or high voltage, if it does. */
  readonly guards: readonly Guard[];
  /** The states in which it is driven above system voltage. `not-known`: it has wires of which the document does not say what they are for. */
  readonly boostedIn: ReadonlySet<string> | "whenever-not-isolated" | "not-known" | "never";
  /** It has wires, none of them has a label, and nobody has declared it harmless; or it lies inside a part behind such a line. */
  readonly isUnlabelled: boolean;
}

interface Draft {
  readonly labels: Set<string>;
  readonly kinds: Set<NetKind>;
  hasWires: boolean;
  boostedIn: ReadonlySet<string> | "whenever-not-isolated" | "never";
}

/**
 * The facts of every net of a harness, by the number its nodes have in the conductor components.
 *
 * What is airbag or high voltage is found by {@link findGuards}. A line without a known kind takes over `boosted` from one across a fuse,
 * switch, bar or load outside control units; where it ends at an injector it counts as boosted too.
 *
 * @returns One entry a net; a node's entry stands at `ofNode[node]`.
 */
export function findNetFacts(harness: Harness): {
  readonly ofNode: Int32Array;
  readonly nets: readonly NetFacts[];
  readonly guards: Guards;
} {
  const { ofNode, count } = waysThrough(harness, "conductors").components;
  const nets: Draft[] = Array.from({ length: count }, () => ({
    labels: new Set(),
    kinds: new Set(),
    hasWires: false,
    boostedIn: "never",
  }));
  harness.edges.forEach((edge, number) => {
    const net = edge.kind === "wire" ? nets[ofNode[harness.index.from[number] ?? -1] ?? -1] : undefined;
    if (edge.kind !== "wire" || !net) return;
    net.hasWires = true;
    if (edge.wire.net === undefined) return;
    net.labels.add(edge.wire.net);
    const known = harness.nets.get(edge.wire.net);
    if (known) addKind(net, known);
  });
  harness.nodes.forEach((node, number) => {
    const net = nets[ofNode[number] ?? -1];
    if (net?.hasWires && net.kinds.size === 0 && isAtInjector(harness, node)) addKind(net, { kind: "boosted" });
  });
  spreadBoost(harness, nets, ofNode);
  const guards = findGuards(harness, ofNode);
  const rails = railNets(harness, ofNode);
  const unlabelled = nets.flatMap(({ hasWires, labels, kinds }, number) => {
    const isTold = kinds.size > 0 || labels.size > 0 || rails.has(number) || guards.harmless.has(number);
    return hasWires && !isTold ? [number] : [];
  });
  const isUnlabelled = withInside(
    unlabelled,
    netsAcross(harness, ofNode),
    (number) => nets[number]?.hasWires === false,
  );
  return {
    ofNode,
    guards,
    nets: nets.map(({ labels, kinds, hasWires, boostedIn }, number) => {
      const own = guards.ofNet.get(number) ?? [];
      // A line that ends on the supply or ground of the machine is known by that.
      const isKnown = !hasWires || kinds.size > 0 || rails.has(number);
      return {
        labels: [...labels],
        kinds: new Set([...kinds, ...own.map((guard) => guard.kind)]),
        guards: own,
        boostedIn: isKnown ? boostedIn : "not-known",
        isUnlabelled: isUnlabelled.has(number),
      };
    }),
  };
}

/** Nets with those behind them, over elements outside control units, that hold no wire and so can have no label of their own. */
function withInside(
  nets: readonly number[],
  across: ReturnType<typeof netsAcross>,
  isInside: (net: number) => boolean,
): ReadonlySet<number> {
  const found = new Set(nets);
  // The set grows while it is walked.
  for (const net of found) for (const { to } of across.get(net) ?? []) if (isInside(to)) found.add(to);
  return found;
}

function addKind(net: Draft, { kind, boostedIn }: Pick<Net, "kind" | "boostedIn">): void {
  if (kind !== undefined) net.kinds.add(kind);
  if (kind === "boosted" || boostedIn)
    addBoost(net, boostedIn && boostedIn.length > 0 ? new Set(boostedIn) : "whenever-not-isolated");
}

function addBoost(net: Draft, more: Draft["boostedIn"]): void {
  if (net.boostedIn === "never" || more === "whenever-not-isolated") net.boostedIn = more;
  else if (net.boostedIn !== "whenever-not-isolated" && more !== "never")
    net.boostedIn = new Set([...net.boostedIn, ...more]);
}

function isAtInjector(harness: Harness, node: HarnessNode): boolean {
  const owner = node.kind === "contact" ? node.connector.component : undefined;
  return owner !== undefined && harness.fitted.components.get(owner)?.kind === "injector";
}

function spreadBoost(harness: Harness, nets: readonly Draft[], ofNode: Int32Array): void {
  const boosted = nets.flatMap((net, number) => (net.kinds.has("boosted") ? [number] : []));
  if (boosted.length === 0) return;
  const beyond = netsAcross(harness, ofNode, ["bias", "driver", "source"]);
  const isTold = nets.map((net) => net.kinds.size > 0);
  for (let at = 0; at < boosted.length; at++) {
    const number = boosted[at] ?? -1;
    const from = nets[number];
    for (const { to } of beyond.get(number) ?? []) {
      const net = nets[to];
      if (!from || !net || isTold[to]) continue;
      if (!net.kinds.has("boosted")) boosted.push(to);
      net.kinds.add("boosted");
      addBoost(net, from.boostedIn);
    }
  }
}

/**
 * Whether a net is driven above system voltage in a state, as far as is known. A boosted net that names no states is, unless the battery
 * is disconnected; one of unknown kind may be wherever the machine is not at rest.
 */
export function isBoostedIn({ boostedIn }: NetFacts, state: State): boolean {
  if (boostedIn === "never") return false;
  if (boostedIn === "whenever-not-isolated") return !state.conditions.includes("battery-disconnected");
  if (boostedIn === "not-known") return !isAtRest(state);
  return boostedIn.has(state.id);
}

/** Whether nothing runs or cranks in a state, as its conditions say; a state without conditions is not known to be at rest. */
export function isAtRest({ conditions }: State): boolean {
  return conditions.length > 0 && !conditions.some((condition) => condition === "running" || condition === "cranking");
}
