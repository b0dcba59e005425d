import { isPermittedAt, type Connector, type Harness, type NetKind } from "../../model/index.ts";
import { railNodes, waysThrough } from "../../trace/index.ts";
import type { Scope } from "../candidates/find-scope.ts";
import type { CheckPlace } from "./check.ts";
import { isGuarded } from "../../safety/index.ts";

/** A connector that is unplugged for a reading, with what it takes to reach it. */
export interface Unplugging extends CheckPlace {
  readonly id: string;
}

/** Minutes to reach and open a connector whose document does not say. Common practice, no source. */
const USUAL_ACCESS_MINUTES = 2;

function unplugging({ id, access }: Connector): Unplugging {
  return { id, key: `connector ${id}`, minutes: access?.minutes ?? USUAL_ACCESS_MINUTES };
}

function isOfModule(harness: Harness, { component }: Connector): boolean {
  return component !== undefined && harness.fitted.components.get(component)?.kind === "module";
}

/**
 * Connectors of a scope that may be unplugged to see whether a reading comes back: not those of control units, and none with airbag or
 * high-voltage lines.
 *
 * @param harness The harness.
 * @param scope The part of the machine concerned.
 */
export function connectorsToUnplug(harness: Harness, scope: Scope): readonly Unplugging[] {
  const found = new Map<string, Unplugging>();
  for (const number of [...scope.nodes, ...scope.besideNodes]) {
    const node = harness.nodes[number];
    if (node?.kind !== "contact" || found.has(node.connector.id)) continue;
    const { connector } = node;
    if (harness.fitted.halves.get(connector.id)?.length !== 2) continue;
    if (isOfModule(harness, connector) || !mayBeOpened(harness, connector)) continue;
    found.set(connector.id, unplugging(connector));
  }
  return [...found.values()];
}

/** Whether the document permits a connector to be unplugged and no airbag or high-voltage line in it forbids that. */
function mayBeOpened(harness: Harness, connector: Connector): boolean {
  return isPermittedAt(connector, "unplug") && !isGuarded(harness, { type: "connector", id: connector.id });
}

/** Lines that are read with their modules in place: a bus by custom; grounds and supplies reach every module of the machine. */
const LEFT_IN_PLACE: ReadonlySet<NetKind> = new Set(["data-bus", "ground", "module-ground", "battery-power"]);

/**
 * The module connectors on each net: they are unplugged before an ohmmeter is put there.
 *
 * @param harness The harness.
 * @returns For a net, by the number that conductors alone give it, its module connectors; undefined where one of them may not be opened, so
 *   that no ohmmeter goes there.
 *
 * Source: makers' pages that forbid ohmmeters on control units; which lines are left in place is common practice, no source.
 */
export function modulesOnNets(harness: Harness): (net: number) => readonly Unplugging[] | undefined {
  const { ofNode } = waysThrough(harness, "conductors").components;
  const { supply, ground } = railNodes(harness);
  const found = new Map<number, Map<string, Unplugging>>();
  const closed = new Set<number>();
  const openable = new Map<Connector, boolean>();
  harness.nodes.forEach((node, number) => {
    if (node.kind !== "contact" || node.half.id !== "device" || !isOfModule(harness, node.connector)) return;
    const net = ofNode[number] ?? -1;
    if (supply[number] || ground[number]) return;
    const isOpened = openable.get(node.connector) ?? mayBeOpened(harness, node.connector);
    openable.set(node.connector, isOpened);
    if (!isOpened) closed.add(net);
    const list = found.get(net) ?? new Map<string, Unplugging>();
    list.set(node.connector.id, unplugging(node.connector));
    found.set(net, list);
  });
  harness.edges.forEach((edge, number) => {
    if (edge.kind !== "wire" || edge.wire.net === undefined) return;
    const kind = harness.nets.get(edge.wire.net)?.kind ?? "signal";
    if (!LEFT_IN_PLACE.has(kind)) return;
    const net = ofNode[harness.index.from[number] ?? -1] ?? -1;
    found.delete(net);
    closed.delete(net);
  });
  return (net) => (closed.has(net) ? undefined : [...(found.get(net)?.values() ?? [])]);
}
