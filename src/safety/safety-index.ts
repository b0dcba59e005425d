import { type Access, type Adapter, type Harness, type NetKind, type State, type Zone } from "../model/index.ts";
import { findBatteryIsland } from "./battery-island.ts";
import { nodeOfAddress } from "./node-of-address.ts";
import { findNetFacts, type NetFacts } from "./net-facts.ts";

/** The quickest known way to something, for things whose own access the document does not give. */
export interface QuickAccess {
  readonly access: Access;
  readonly zone: string | undefined;
}

/** The lines of a connector: all their kinds, and those that are driven above system voltage in some state. */
export interface Carried {
  readonly kinds: ReadonlySet<NetKind>;
  readonly boosted: readonly NetFacts[];
}

/** What the safety questions look up, read once from a harness. */
export interface SafetyIndex {
  readonly harness: Harness;
  readonly zones: ReadonlyMap<string, Zone>;
  /** The net of a node. */
  readonly netOf: (node: number) => NetFacts;
  /** What a connector carries, its empty cavities left out. */
  readonly carriedBy: ReadonlyMap<string, Carried>;
  /** Adapters that make a node touchable. */
  readonly adaptersAt: ReadonlyMap<number, readonly Adapter[]>;
  readonly quickestOfZone: ReadonlyMap<string, QuickAccess>;
  readonly quickestOfComponent: ReadonlyMap<string, QuickAccess>;
  /** What stays on the battery in an isolated state. */
  readonly batteryIsland: (state: State) => ReadonlySet<number>;
}

// Worked out once a harness; a harness never changes.
const known = new WeakMap<Harness, SafetyIndex>();

const NO_NET: NetFacts = { labels: [], kinds: new Set(), boostedIn: "never" };

/** The index of a harness. */
export function safetyIndex(harness: Harness): SafetyIndex {
  const before = known.get(harness);
  if (before) return before;
  const { ofNode, nets } = findNetFacts(harness);
  const netOf = (node: number): NetFacts => nets[ofNode[node] ?? -1] ?? NO_NET;
  const islands = new Map<State, ReadonlySet<number>>();
  const batteryIsland = (state: State): ReadonlySet<number> => {
    const island = islands.get(state) ?? findBatteryIsland(harness, state);
    islands.set(state, island);
    return island;
  };
  const index = {
    harness,
    zones: new Map(harness.document.zones.map((zone) => [zone.id, zone])),
    netOf,
    carriedBy: carriedByConnectors(harness, netOf),
    adaptersAt: adaptersByNode(harness),
    ...quickest(harness),
    batteryIsland,
  };
  known.set(harness, index);
  return index;
}

function carriedByConnectors(harness: Harness, netOf: SafetyIndex["netOf"]): SafetyIndex["carriedBy"] {
  const nets = new Map<string, Set<NetFacts>>();
  harness.nodes.forEach((node, number) => {
    if (node.kind !== "contact") return;
    const list = nets.get(node.connector.id);
    if (list) list.add(netOf(number));
    else nets.set(node.connector.id, new Set([netOf(number)]));
  });
  return new Map(
    [...nets].map(([id, carried]) => {
      const kinds = new Set([...carried].flatMap((net) => [...net.kinds]));
      return [id, { kinds, boosted: [...carried].filter((net) => net.boostedIn !== "never") }];
    }),
  );
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
