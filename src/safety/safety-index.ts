import type { Access, Adapter, Harness, Hazard, NetKind, State, Zone } from "../model/index.ts";
import { findBatteryIsland } from "./battery-island.ts";
import { nodeOfAddress } from "./node-of-address.ts";
import type { Guard } from "./find-guards.ts";
import { readGuardedName } from "./guarded-names.ts";
import { findNetFacts, type NetFacts } from "./net-facts.ts";
import { holdsIn, isOfState } from "./hazards.ts";

/** The quickest known way to something, for things whose own access the document does not give. */
export interface QuickAccess {
  readonly access: Access;
  readonly zone: string | undefined;
}

/** The lines of a connector: all their kinds, and those that are driven above system voltage in some state. */
export interface Carried {
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
  readonly carriedBy: ReadonlyMap<string, Carried>;
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

// Worked out once a harness; a harness never changes.
const known = new WeakMap<Harness, SafetyIndex>();

const DOUBT: readonly Guard[] = [
  {
    kind: "airbag",
    because: "nothing tells what one of its lines is for, and the machine has airbag or high-voltage lines",
  },
];
const NO_NET: NetFacts = { labels: [], kinds: new Set(), guards: [], boostedIn: "never", isUnlabelled: false };

/** The index of a harness. */
export function safetyIndex(harness: Harness): SafetyIndex {
  const before = known.get(harness);
  if (before) return before;
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
  known.set(harness, index);
  return index;
}

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
    if (node.kind !== "contact" || node.half.id === "device") return;
    const list = contactsOf.get(node.connector.id);
    if (list) list.push(number);
    else contactsOf.set(node.connector.id, [number]);
  });
  for (const adapter of harness.document.adapters) {
    const points =
      adapter.points === "all"
        ? adapter.fits.flatMap((id) => contactsOf.get(id) ?? [])
        : (adapter.points ?? []).flatMap((address) => nodeOfAddress(harness, address) ?? []);
    // Points named twice, by pair and by half, are one.
    for (const point of new Set(points)) {
      const list = adapters.get(point);
      if (list) list.push(adapter);
      else adapters.set(point, [adapter]);
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
  for (const { access, zone, component } of [...harness.fitted.connectors.values(), ...harness.fitted.studs.values()]) {
    if (!access) continue;
    note(ofZone, zone, { access, zone });
    note(ofComponent, component, { access, zone });
  }
  return { quickestOfZone: ofZone, quickestOfComponent: ofComponent };
}
