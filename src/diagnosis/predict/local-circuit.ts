import { addTo, keptFor, keptIn } from "../../base/index.ts";
import {
  applyFaults,
  reduceList,
  settle,
  type Fault,
  type PartList,
  type OperatingPoint,
} from "../../simulation/index.ts";
import type { Harness } from "../../harness-model/index.ts";
import type { Scope } from "../candidates/find-scope.ts";
import type { TestSetup } from "../checks/check.ts";
import { normalMachine } from "./normal-circuit.ts";
import { withoutHidden } from "./ohm-path.ts";

/** The points of a machine that a job is about, by name; everything else may be reduced to what it amounts to between them. */
export interface LocalPoints {
  /** Points of the circuits and of what is measured. */
  readonly core: ReadonlySet<string>;
  /** Points of each connector that may be unplugged. */
  readonly connectors: ReadonlyMap<string, readonly string[]>;
}

/**
 * The points that a scope is about.
 *
 * @param also Points that are measured besides, and connectors that may be unplugged besides.
 */
export function localPoints(
  harness: Harness,
  scope: Scope,
  also: { readonly points: Iterable<string>; readonly connectors: Iterable<string> },
): LocalPoints {
  const core = new Set<string>(also.points);
  const connectors = new Map<string, readonly string[]>();
  const addConnector = (id: string): void => {
    if (!connectors.has(id)) connectors.set(id, contactsOf(harness).get(id) ?? []);
  };
  for (const number of [...scope.nodes, ...scope.besideNodes]) {
    const node = harness.nodes[number];
    if (!node) continue;
    core.add(node.key);
    if (node.kind === "contact") addConnector(node.connector.id);
  }
  for (const number of [...scope.edges, ...scope.besideEdges]) {
    const ends = [harness.index.from[number], harness.index.to[number]].map(
      (end) => harness.nodes[end ?? -1]?.key ?? "",
    );
    const wire = harness.edges[number]?.kind === "wire" ? harness.edges[number].key : undefined;
    for (const end of ends) {
      core.add(end);
      if (wire !== undefined) core.add(`${wire}@${end}`);
    }
  }
  for (const id of also.connectors) addConnector(id);
  return { core, connectors };
}

/**
 * The points that faults touch, so that they are kept with the circuit: a bridge reaches a neighbour outside it, a short blows the fuse
 * before it, wires that change places take their far ends along, a connector left off opens every line in it.
 */
export function pointsOfFaults(harness: Harness, faultSets: readonly (readonly Fault[])[]): ReadonlySet<string> {
  const points = new Set<string>();
  const addEdge = (number: number | undefined): void => {
    if (number === undefined) return;
    for (const end of [harness.index.from[number], harness.index.to[number]])
      points.add(harness.nodes[end ?? -1]?.key ?? "");
  };
  const addTarget = (name: string): void => {
    points.add(name);
    const wire = harness.fitted.wires.has(name) ? harness.edgeNumbers.get(name) : undefined;
    addEdge(wire);
    if (wire === undefined) return;
    for (const end of [harness.index.from[wire], harness.index.to[wire]])
      points.add(`${name}@${harness.nodes[end ?? -1]?.key ?? ""}`);
  };
  for (const fault of faultSets.flat()) {
    if (fault.kind === "bridge") for (const name of fault.between) points.add(name);
    else if (fault.kind === "cross-wired") for (const name of fault.cavities) edgesAt(harness, name).forEach(addEdge);
    else if (fault.kind === "short") addTarget(fault.to);
    else if (fault.kind === "unplugged")
      for (const contact of contactsOf(harness).get(fault.of) ?? []) points.add(contact);
    else if (fault.kind === "blown") addEdge(harness.edgeNumbers.get(fault.of));
  }
  return points;
}

function edgesAt({ index, nodeNumbers }: Harness, name: string): readonly number[] {
  const node = nodeNumbers.get(name) ?? -1;
  return [...index.arcEdges.slice(index.offsets[node] ?? 0, index.offsets[node + 1] ?? 0)];
}

const contactsOf = keptFor((harness: Harness): ReadonlyMap<string, readonly string[]> => {
  const found = new Map<string, string[]>();
  for (const node of harness.nodes) if (node.kind === "contact") addTo(found, node.connector.id, node.key);
  return found;
});

// The points are made once a job; what is reduced to them is worked out once a state.
const operatingPointOf = keptFor((_: LocalPoints) => new Map<string, OperatingPoint | undefined>());

/**
 * The parts around some points in a standing: small, and the same at these points as the whole machine.
 *
 * Modules, relays and diodes outside stay as they are in the healthy machine, unless they have to do with the circuit.
 *
 * @param points What is kept; the whole machine where absent.
 * @returns The healthy parts with the connectors unplugged; undefined if the healthy machine has no steady state.
 */
export function localCircuit(harness: Harness, setup: TestSetup, points?: LocalPoints): PartList | undefined {
  const unplugged = setup.unplugged.map((of) => ({ kind: "unplugged", of }) as const);
  const operatingPoint = points
    ? operatingPointAround(harness, setup.state, points)
    : measuredMachine(harness, setup.state);
  if (!operatingPoint) return undefined;
  const keep = points && new Set([...points.core, ...setup.unplugged.flatMap((id) => points.connectors.get(id) ?? [])]);
  const list = keep ? reduceList(operatingPoint, numbersOf(operatingPoint.list, keep)) : operatingPoint.list;
  const opened = applyFaults(harness, list, unplugged);
  // A connector of which nothing is kept has nothing to do with the circuit.
  return opened.ok ? opened.value : list;
}

function operatingPointAround(harness: Harness, state: string, points: LocalPoints): OperatingPoint | undefined {
  return keptIn(operatingPointOf(points), state, () => {
    const whole = measuredMachine(harness, state);
    const all = new Set([...points.core, ...[...points.connectors.values()].flat()]);
    const reduced = whole && settle(reduceList(whole, numbersOf(whole.list, all)));
    return reduced?.kind === "settled" ? reduced : whole;
  });
}

const isolated = keptFor((_: Harness) => new Map<string, OperatingPoint | undefined>());

/** The healthy machine as a meter finds it: where there are no volts an ohmmeter sees nothing of what hides in control units. */
function measuredMachine(harness: Harness, state: string): OperatingPoint | undefined {
  const normal = normalMachine(harness, state);
  const isIsolated = harness.document.states.some(
    ({ id, conditions }) => id === state && conditions.includes("battery-disconnected"),
  );
  if (!normal || !isIsolated) return normal;
  return keptIn(isolated(harness), state, () => {
    const settled = settle(withoutHidden(normal.list));
    return settled.kind === "settled" ? settled : undefined;
  });
}

function numbersOf(list: PartList, names: ReadonlySet<string>): readonly number[] {
  return [...list.nodeKeys.keys()].filter((number) => names.has(list.nodeKeys[number] ?? ""));
}
