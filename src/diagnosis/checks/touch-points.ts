import type { Harness, State } from "../../model/index.ts";
import { findProbePoints, type ProbePoint } from "../../safety/index.ts";
import { mainTerminals, railNodes } from "../../trace/index.ts";
import type { Scope } from "../candidates/find-scope.ts";
import type { CheckPlace } from "./check.ts";

/** What a person has at hand. */
export interface Equipment {
  /** Ids of the adapters owned; all of the document where absent. */
  readonly adapters?: ReadonlySet<string>;
}

/** A permitted point with the electrical point it touches. */
export type Touch = ProbePoint & { readonly at: string };

/** Permitted points of a state, best first, and those at the main terminals. */
export interface PointsOfState {
  readonly state: State;
  readonly points: readonly Touch[];
  readonly positive: Touch | undefined;
  readonly negative: Touch | undefined;
}

/**
 * The permitted points of a scope in a state, each electrical point once for each connector that is opened for it.
 *
 * @param harness The harness.
 * @param scope The part of the machine concerned.
 * @param how The state and the adapters owned.
 */
export function touchPoints(
  harness: Harness,
  scope: Scope,
  { state, equipment }: { readonly state: State; readonly equipment: Equipment },
): PointsOfState {
  const target = { nodes: askedNodes(harness, scope), edges: [...scope.edges] };
  const found = findProbePoints(harness, target, state, { refusals: "none" }).points;
  const owned = found.filter((point) => isOwned(point, equipment)).filter(isTouch);
  const points = bestOfEach(owned).filter((point) => !isFar(harness, scope, point));
  const { positive, negative } = mainTerminals(harness);
  return {
    state,
    points,
    positive: mainPoint(harness, state, positive),
    negative: mainPoint(harness, state, negative),
  };
}

/** Above so many nodes on the rails, points on them are not asked for: the whole rail would be judged for each question. */
const MOST_RAIL_NODES = 4000;

function askedNodes(harness: Harness, scope: Scope): readonly number[] {
  const rails = railNodes(harness);
  const isRail = (number: number): boolean => rails.supply[number] === 1 || rails.ground[number] === 1;
  const asked = [...scope.nodes, ...scope.besideNodes];
  const size = harness.nodes.reduce((count, _, number) => count + Number(isRail(number)), 0);
  return size > MOST_RAIL_NODES ? asked.filter((number) => !isRail(number)) : asked;
}

function isTouch(point: ProbePoint): point is Touch {
  return point.at !== undefined;
}

function isOwned({ adapter }: ProbePoint, { adapters }: Equipment): boolean {
  return adapter === undefined || adapters === undefined || adapters.has(adapter);
}

/** Ground and supply reach all over the machine; only their points in the circuits matter. */
function isFar(harness: Harness, scope: Scope, { at }: Touch): boolean {
  const number = harness.nodeNumbers.get(at) ?? -1;
  return !scope.nodes.has(number) && !scope.besideNodes.has(number);
}

/** Of several ways to touch one point with the same connector open, the first: points come best first. */
function bestOfEach(points: readonly Touch[]): readonly Touch[] {
  const best = new Map<string, Touch>();
  for (const point of points) {
    const key = `${point.at} ${point.unplug ?? ""}`;
    if (!best.has(key)) best.set(key, point);
  }
  return [...best.values()];
}

function mainPoint(harness: Harness, state: State, node: number | undefined): Touch | undefined {
  if (node === undefined) return undefined;
  const key = harness.nodes[node]?.key ?? "";
  const known = mainsKnown.get(harness) ?? new Map<string, Touch | undefined>();
  mainsKnown.set(harness, known);
  const name = `${state.id} ${key}`;
  if (!known.has(name)) {
    const { points } = findProbePoints(harness, { nodes: [node] }, state, { refusals: "none" });
    known.set(
      name,
      points.filter(isTouch).find((point) => point.relation === "itself" && point.meters.includes("volts")),
    );
  }
  return known.get(name);
}

// The main terminals are asked for in every job and are always the same.
const mainsKnown = new WeakMap<Harness, Map<string, Touch | undefined>>();

/** Both through one adapter, or both at one opened connector, or both at bare metal nearby. */
export function reachedAlike(a: Touch, b: Touch): boolean {
  if (a.adapter !== undefined || b.adapter !== undefined) {
    return a.adapter === b.adapter && placeOf(a).key === placeOf(b).key;
  }
  if (a.unplug !== undefined || b.unplug !== undefined) return a.unplug === b.unplug;
  return a.zone !== undefined && a.zone === b.zone;
}

/** What has to be reached for a point: the connector, the connector with its adapter, or the zone. */
export function placeOf({ adapter, unplug, minutes, zone, at, id }: ProbePoint): CheckPlace {
  if (adapter !== undefined) return { key: `adapter ${adapter} ${(at ?? "").split(":")[0] ?? ""}`, minutes };
  if (unplug !== undefined) return { key: `connector ${unplug}`, minutes };
  return { key: zone === undefined ? id : `zone ${zone} ${minutes}`, minutes };
}
