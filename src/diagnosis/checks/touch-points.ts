import type { Harness, State } from "../../model/index.ts";
import { findProbePoints, isContactPermitted, type ProbePoint } from "../../safety/index.ts";
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

function isRail(harness: Harness, number: number): boolean {
  const rails = railNodes(harness);
  return rails.supply[number] === 1 || rails.ground[number] === 1;
}

function isHuge(harness: Harness): boolean {
  return harness.nodes.reduce((count, _, number) => count + Number(isRail(harness, number)), 0) > MOST_RAIL_NODES;
}

function askedNodes(harness: Harness, scope: Scope): readonly number[] {
  const asked = [...scope.nodes, ...scope.besideNodes];
  return isHuge(harness) ? asked.filter((number) => !isRail(harness, number)) : asked;
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
  if (!known.has(name)) known.set(name, isHuge(harness) ? tipAt(harness, state, key) : bestAt(harness, state, node));
  return known.get(name);
}

function bestAt(harness: Harness, state: State, node: number): Touch | undefined {
  const { points } = findProbePoints(harness, { nodes: [node] }, state, { refusals: "none" });
  return points.filter(isTouch).find((point) => point.relation === "itself" && point.meters.includes("volts"));
}

/** A tip on a terminal, judged alone: on a huge rail the question for all its points would take too long. */
function tipAt(harness: Harness, state: State, at: string): Touch | undefined {
  const meters = (["volts", "ohms"] as const).filter(
    (meter) => isContactPermitted(harness, state, { point: at, method: "tip", meter }).kind === "permitted",
  );
  const answer = isContactPermitted(harness, state, { point: at, method: "tip", meter: "volts" });
  const stud = harness.fitted.studs.get(at);
  if (answer.kind !== "permitted" || !stud) return undefined;
  return {
    id: `tip@${at}`,
    class: answer.class,
    method: "tip",
    how: `Put the meter tip or a clip on the bare metal of ${at}.`,
    item: { type: "stud", id: at },
    at,
    relation: "itself",
    between: [],
    minutes: stud.access?.minutes ?? 1,
    isEstimated: stud.access === undefined,
    ...(stud.zone === undefined ? {} : { zone: stud.zone }),
    meters,
    notFor: [],
    cautions: answer.cautions,
  };
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
