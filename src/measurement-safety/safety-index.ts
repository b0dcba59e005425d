import { addTo, keptFor } from "../base/index.ts";
import {
  sideKey,
  type Access,
  type Adapter,
  type Harness,
  type Hazard,
  type NetKind,
  type State,
  type Zone,
} from "../harness-model/index.ts";
import { reach, resolveItem, type Item, type Passage } from "../connectivity/index.ts";
import type { Guard } from "./find-guards.ts";
import { readGuardedName } from "./guarded-names.ts";
import { findNetFacts, type NetFacts } from "./net-facts.ts";

/** The quickest known way to something, for things whose own access the document does not give. */
interface QuickAccess {
  readonly access: Access;
  readonly zone: string | undefined;
}

/** The lines of a connector: all their kinds, and those that are driven above system voltage in some state. */
interface ConnectorNets {
  readonly kinds: ReadonlySet<NetKind>;
  readonly boosted: ReadonlySet<NetFacts>;
  readonly guards: ReadonlySet<Guard>;
}

/** What the safety questions look up, read once from a harness. */
export interface SafetyIndex {
  readonly harness: Harness;
  readonly zones: ReadonlyMap<string, Zone>;
  /** The net of a node. */
  readonly netOf: (node: number) => NetFacts;
  /** Why something at a node or on a wire counts as airbag or high voltage; empty if it does not. */
  readonly guardsAt: (at: {
    readonly node?: number | undefined;
    readonly edge?: number | undefined;
  }) => readonly Guard[];
  /** That a node may be airbag or high voltage, where nothing tells what its line is for and the machine has such lines; else empty. */
  readonly doubtAt: (node: number) => readonly Guard[];
  /** What a connector carries, its empty cavities left out. */
  readonly carriedBy: ReadonlyMap<string, ConnectorNets>;
  /** Adapters that make a node touchable. */
  readonly adaptersAt: ReadonlyMap<number, readonly Adapter[]>;
  readonly quickestOfZone: ReadonlyMap<string, QuickAccess>;
  readonly quickestOfComponent: ReadonlyMap<string, QuickAccess>;
  /** What turns or crushes anywhere on the machine in a state. */
  readonly movingHazards: (state: State) => readonly Hazard[];
  /** Whether something turns or is driven above system voltage somewhere on the machine in a state. */
  readonly isBusy: (state: State) => boolean;
  /** What stays on the battery in an isolated state. */
  readonly batteryIsland: (state: State) => ReadonlySet<number>;
}

const DOUBT: readonly Guard[] = [
  {
    kind: "airbag",
    because:
      "the harness data does not say what one of its lines is for, and the machine has airbag or high-voltage lines",
  },
];
const NO_NET: NetFacts = { labels: [], kinds: new Set(), guards: [], boostedIn: "never", isUnlabelled: false };

/** The index of a harness. */
export const safetyIndex = keptFor((harness: Harness): SafetyIndex => {
  const { ofNode, nets, guards } = findNetFacts(harness);
  const netOf = (node: number): NetFacts => nets[ofNode[node] ?? -1] ?? NO_NET;
  const guardsAt: SafetyIndex["guardsAt"] = ({ node, edge }) => [
    ...netOf(node ?? harness.index.from[edge ?? -1] ?? -1).guards,
    ...(guards.ofNode.get(node ?? -1) ?? []),
    ...(guards.ofEdge.get(edge ?? -1) ?? []),
  ];
  const hasGuarded = guards.ofNet.size + guards.ofNode.size + guards.ofEdge.size > 0 || listsGuarded(harness);
  const doubtAt: SafetyIndex["doubtAt"] = (node) => (hasGuarded && netOf(node).isUnlabelled ? DOUBT : []);
  const islands = new Map<State, ReadonlySet<number>>();
  const batteryIsland = (state: State): ReadonlySet<number> => {
    const island = islands.get(state) ?? findBatteryIsland(harness, state);
    islands.set(state, island);
    return island;
  };
  const moving = [...harness.document.zones, ...harness.document.segments]
    .flatMap(({ hazards = [] }) => hazards)
    .filter(({ kind }) => kind === "rotating" || kind === "crush");
  const index: SafetyIndex = {
    harness,
    zones: new Map(harness.document.zones.map((zone) => [zone.id, zone])),
    netOf,
    guardsAt,
    doubtAt,
    carriedBy: carriedByConnectors(harness, netOf, (node) => [...guardsAt({ node }), ...doubtAt(node)]),
    adaptersAt: adaptersByNode(harness),
    ...quickest(harness),
    movingHazards: (state) => moving.filter((hazard) => holdsIn(hazard, state)),
    isBusy: (state) =>
      moving.some((hazard) => hazard.kind === "rotating" && isOfState(hazard) && holdsIn(hazard, state)) ||
      nets.some(({ boostedIn }) => typeof boostedIn === "object" && boostedIn.has(state.id)),
    batteryIsland,
  };
  return index;
});

/** Whether the list of nets names an airbag or high-voltage line, be it used in this build or not. */
function listsGuarded({ document }: Harness): boolean {
  return document.nets.some(({ kind, id, label }) => {
    if (kind === "airbag" || kind === "high-voltage") return true;
    return kind !== "boosted" && [id, label].some((name) => readGuardedName(name ?? "", { figures: true }));
  });
}

function carriedByConnectors(
  harness: Harness,
  netOf: SafetyIndex["netOf"],
  guardsOfNode: (node: number) => readonly Guard[],
): SafetyIndex["carriedBy"] {
  const found = new Map<string, { kinds: Set<NetKind>; boosted: Set<NetFacts>; guards: Set<Guard> }>();
  harness.nodes.forEach((node, number) => {
    if (node.kind !== "contact") return;
    const carried = found.get(node.connector.id) ?? { kinds: new Set(), boosted: new Set(), guards: new Set() };
    found.set(node.connector.id, carried);
    const net = netOf(number);
    for (const kind of net.kinds) carried.kinds.add(kind);
    if (net.boostedIn !== "never") carried.boosted.add(net);
    for (const guard of guardsOfNode(number)) {
      carried.kinds.add(guard.kind);
      carried.guards.add(guard);
    }
  });
  return found;
}

function adaptersByNode(harness: Harness): SafetyIndex["adaptersAt"] {
  const adapters = new Map<number, Adapter[]>();
  const contactsOf = new Map<string, number[]>();
  harness.nodes.forEach((node, number) => {
    if (node.kind !== "contact" || node.side.id === "device") return;
    addTo(contactsOf, node.connector.id, number);
  });
  for (const adapter of harness.document.adapters) {
    const points =
      adapter.points === "all"
        ? adapter.fits.flatMap((id) => contactsOf.get(id) ?? [])
        : (adapter.points ?? []).flatMap((address) => nodeOfAddress(harness, address) ?? []);
    // Points named twice, by pair and by half, are one.
    for (const point of new Set(points)) {
      addTo(adapters, point, adapter);
    }
  }
  return adapters;
}

function quickest(harness: Harness): Pick<SafetyIndex, "quickestOfZone" | "quickestOfComponent"> {
  const ofZone = new Map<string, QuickAccess>();
  const ofComponent = new Map<string, QuickAccess>();
  const note = (map: Map<string, QuickAccess>, key: string | undefined, quick: QuickAccess): void => {
    if (key !== undefined && quick.access.minutes < (map.get(key)?.access.minutes ?? Infinity)) map.set(key, quick);
  };
  for (const { access, zone, component } of [
    ...harness.fitted.connectors.values(),
    ...harness.fitted.terminalStuds.values(),
  ]) {
    if (!access) continue;
    note(ofZone, zone, { access, zone });
    note(ofComponent, component, { access, zone });
  }
  return { quickestOfZone: ofZone, quickestOfComponent: ofComponent };
}

/**
 * What stays on the battery when the machine is isolated: the battery terminal on the isolator's side and all that hangs on it.
 *
 * Isolator switches count as open, other switches and relay contacts as the state says, or as they are at rest; loads and everything else
 * lead on. Of the two sides of the battery the island is the one the isolator cuts off from the machine, so the smaller. Where no isolator
 * parts them (a clamp is taken off instead), only the positive terminal counts.
 *
 * @param state A state with the condition `battery-disconnected`; in any other the whole machine is live and the answer is not needed.
 * @returns Node numbers.
 */
function findBatteryIsland(harness: Harness, state: State): ReadonlySet<number> {
  const passage = passageIn(harness, state);
  const island = new Set<number>();
  harness.edges.forEach((edge, number) => {
    if (edge.kind !== "element" || edge.element.kind !== "source" || edge.element.role !== "battery") return;
    const positive = harness.index.from[number] ?? -1;
    const negative = harness.index.to[number] ?? -1;
    const fromPositive = reach(harness.index, passage, [positive]);
    const fromNegative = reach(harness.index, passage, [negative]);
    const isParted = fromPositive.reached[negative] === 0;
    const smaller = fromPositive.order.length <= fromNegative.order.length ? fromPositive : fromNegative;
    for (const node of isParted ? smaller.order : [positive]) island.add(node);
  });
  return island;
}

function passageIn(harness: Harness, state: State): Passage {
  const settings = new Map((state.settings ?? []).map((setting) => [setting.of, setting.is]));
  const edges = new Uint8Array(harness.edges.length).fill(1);
  harness.edges.forEach((edge, number) => {
    if (edge.kind !== "element") return;
    const { element, component } = edge;
    const set = settings.get(`${component.id}.${element.id}`);
    switch (element.kind) {
      case "switch":
        edges[number] = component.kind !== "isolator" && (set ?? element.rest) === "closed" ? 1 : 0;
        break;
      case "contact":
        edges[number] = (set ?? (element.form === "break" ? "closed" : "open")) === "closed" ? 1 : 0;
        break;
      case "source":
        edges[number] = 0;
        break;
      case "resistor":
      case "ntc":
      case "coil":
      case "fuse":
      case "bias":
      case "driver":
      case "divider":
      case "load":
      case "lamp":
      case "diode":
      case "bar":
        break;
    }
  });
  return { edges, nodes: new Uint8Array(harness.nodes.length).fill(1) };
}

/**
 * Why some nodes and wires count as airbag or high voltage, so that no check is suggested there, not even to look.
 *
 * @returns Each reason once; empty if they do not count as such. A line of which nothing is known counts on a machine that has such lines.
 */
export function guardsOf(
  harness: Harness,
  at: { readonly nodes: Iterable<number>; readonly edges?: Iterable<number> },
): readonly Guard[] {
  const { guardsAt, doubtAt } = safetyIndex(harness);
  const guards = new Map<string, Guard>();
  for (const node of at.nodes)
    for (const guard of [...guardsAt({ node }), ...doubtAt(node)]) guards.set(`${guard.kind} ${guard.because}`, guard);
  for (const edge of at.edges ?? [])
    for (const guard of guardsAt({ edge })) guards.set(`${guard.kind} ${guard.because}`, guard);
  return [...guards.values()];
}

/**
 * Whether something hangs on an airbag or high-voltage line, so that no check is suggested at all.
 *
 * @param item The item; a connector counts with every line in it.
 * @returns True also for what this build does not have.
 */
export function isGuarded(harness: Harness, item: Item): boolean {
  const found = resolveItem(harness, item);
  return found === undefined || guardsOf(harness, { nodes: found.groups.flat(), edges: found.edges }).length > 0;
}

/** Whether a danger holds in a state; one that names no states always does. */
export function holdsIn({ states = [] }: Hazard, state: State): boolean {
  return states.length === 0 || states.includes(state.id);
}

/** Whether a danger holds in some states and not in others. */
export function isOfState({ states = [] }: Pick<Hazard, "states">): boolean {
  return states.length > 0;
}

/**
 * The node an address means: where it names a mated pair, the half that wires end in; of two such halves the first one fitted.
 *
 * @param address Such as `B3.X:1`, `XF1e:2`, `G2+`.
 * @returns A node number, or undefined if nothing fitted has this address.
 */
export function nodeOfAddress(harness: Harness, address: string): number | undefined {
  const exact = harness.nodeNumbers.get(address);
  const colon = address.lastIndexOf(":");
  if (exact !== undefined || colon < 0) return exact;
  const owner = address.slice(0, colon);
  const named = harness.book.sides.get(owner);
  const connector = named?.connector ?? harness.book.connectors.get(owner);
  if (!connector) return undefined;
  const sides = named ? [named.side] : (harness.fitted.sides.get(connector.id) ?? []);
  return sides
    .toSorted((a, b) => Number(a.id === "device") - Number(b.id === "device"))
    .map((side) => harness.nodeNumbers.get(`${sideKey(connector, side)}:${address.slice(colon + 1)}`))
    .find((node) => node !== undefined);
}
