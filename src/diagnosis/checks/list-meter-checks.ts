import { naturalOrder } from "../../base/index.ts";
import {
  isPermittedAt,
  mainTerminals,
  type Connector,
  type Harness,
  type NetKind,
  type State,
} from "../../harness-model/index.ts";
import { findProbePoints, isContactPermitted, isGuarded, type ProbePoint } from "../../measurement-safety/index.ts";
import { railNodes, waysThrough } from "../../connectivity/index.ts";
import type { Scope } from "../candidates/find-scope.ts";
import { statesToMeasure } from "../predict/normal-circuit.ts";
import { ohmPath } from "../predict/ohm-path.ts";
import type { CheckPlace, MeterCheck } from "./check.ts";
import { COSTS } from "./cost-table.ts";

/**
 * Lists the meter checks of a scope: pairs of permitted points, in every state worth measuring in, with what must be unplugged.
 *
 * Volts: from each point to the main negative, to the main positive, and to the points reached in the same way; besides each point that is
 * reached without unplugging anything, with one connector of the scope unplugged. Ohms: in isolated states, each point to the main
 * negative, also with one connector of its line unplugged, points of one line from end to end, and points reached in the same way in pairs,
 * control units on the line unplugged. Points come from the safety rules only.
 *
 * @param equipment Adapters owned.
 */
export function listMeterChecks(harness: Harness, scope: Scope, equipment: Equipment = {}): readonly MeterCheck[] {
  const pluggable = connectorsToUnplug(harness, scope);
  const modules = modulesOnNets(harness);
  const checks = statesToMeasure(harness, scope.edges).flatMap((state) => {
    const points = touchPoints(harness, scope, { state, equipment });
    return state.conditions.includes("battery-disconnected")
      ? ohmChecks(harness, points, { modules, pluggable })
      : voltChecks(harness, points, pluggable);
  });
  // The same two points the other way round show the same with the sign turned.
  return [...new Map(checks.toReversed().map((check) => [pairKey(check), check])).values()].toReversed();
}

function pairKey({ kind, need, red, black }: MeterCheck): string {
  const points = [`${red.at ?? ""} ${red.adapter ?? ""}`, `${black.at ?? ""} ${black.adapter ?? ""}`].sort(
    naturalOrder,
  );
  return [kind, need.state, need.unplugged.join(), ...points].join("|");
}

function voltChecks(harness: Harness, of: PointsOfState, pluggable: readonly Unplugging[]): readonly MeterCheck[] {
  const { state, positive, negative } = of;
  const points = of.points.filter(({ meters }) => meters.includes("dc-voltage"));
  const checks: MeterCheck[] = [];
  const add = (red: TestPoint, black: TestPoint | undefined, off: readonly Unplugging[] = []): void => {
    if (black && red.at !== black.at) checks.push(makeCheck("dc-voltage", state, { red, black, off }));
  };
  for (const red of points) {
    add(red, negative);
    if (positive) add(positive, red);
    for (const black of points) if (red !== black && reachedAlike(red, black)) add(red, black);
    if (red.unplug !== undefined || !isKeyOnly(state)) continue;
    const own = ownConnector(harness, red);
    for (const off of pluggable) if (off.id !== own) add(red, negative, [off]);
  }
  return checks;
}

/** The connector that a point is touched in: what stays there is not unplugged for a reading elsewhere. */
function ownConnector(harness: Harness, { at }: TestPoint): string | undefined {
  const node = harness.nodes[harness.nodeNumbers.get(at) ?? -1];
  return node?.kind === "contact" ? node.connector.id : undefined;
}

/** Key on and nothing more: the state in which connectors are unplugged to see whether a reading comes back. */
function isKeyOnly({ conditions }: State): boolean {
  return conditions.length === 1 && conditions[0] === "key-on";
}

interface Unpluggings {
  /** Control units on each net. */
  readonly modules: (net: number) => readonly Unplugging[] | undefined;
  /** What may be left off to see whether a reading changes. */
  readonly pluggable: readonly Unplugging[];
}

function ohmChecks(harness: Harness, of: PointsOfState, { modules, pluggable }: Unpluggings): readonly MeterCheck[] {
  const { state, negative } = of;
  const points = of.points.filter(({ meters }) => meters.includes("resistance"));
  const { ofNode } = waysThrough(harness, "conductors").components;
  const netOf = ({ at }: TestPoint): number => ofNode[harness.nodeNumbers.get(at) ?? -1] ?? -1;
  const isCrowded = crowdedNets(points.map(netOf));
  const onNet = connectorsOnNets(harness, pluggable);
  const checks: MeterCheck[] = [];
  const add = (red: TestPoint, black: TestPoint, alsoOff: readonly Unplugging[] = []): void => {
    const own = [modules(netOf(red)), modules(netOf(black))];
    if (own.includes(undefined)) return;
    const off = [...own.flatMap((each) => each ?? []), ...alsoOff];
    const others = off.filter(({ id }) => id !== red.unplug && id !== black.unplug);
    const check = makeCheck("resistance", state, { red, black, off: others });
    const path = ohmPath(harness, check.need, [red.at, black.at]);
    if (path === "known" || path === "none") checks.push(check);
  };
  points.forEach((red, index) => {
    if (negative && red.at !== negative.at) {
      add(red, negative);
      // A line that is shorted somewhere is parted where it can be unplugged.
      const own = ownConnector(harness, red);
      const parting = isCrowded(netOf(red)) ? [] : onNet(netOf(red)).filter(({ id }) => id !== own);
      for (const each of parting) add(red, negative, [each]);
    }
    for (const black of points.slice(index + 1)) {
      // Two places are worth reaching for a piece of harness only: one line from end to end.
      const isPiece = netOf(red) === netOf(black) && !isCrowded(netOf(red));
      if (red.at !== black.at && (isPiece || reachedAlike(red, black))) add(red, black);
    }
  });
  return checks;
}

/** The connectors on each net among those that may be unplugged. */
function connectorsOnNets(harness: Harness, pluggable: readonly Unplugging[]): (net: number) => readonly Unplugging[] {
  const { ofNode } = waysThrough(harness, "conductors").components;
  const byId = new Map(pluggable.map((each) => [each.id, each]));
  const found = new Map<number, Map<string, Unplugging>>();
  harness.nodes.forEach((node, number) => {
    const off = node.kind === "contact" ? byId.get(node.connector.id) : undefined;
    if (!off) return;
    const net = ofNode[number] ?? -1;
    const list = found.get(net) ?? new Map<string, Unplugging>();
    found.set(net, list.set(off.id, off));
  });
  return (net) => [...(found.get(net)?.values() ?? [])];
}

/** More points than this on one net, as on supplies and grounds, and they are not paired: each is read to the main terminals already. */
const MOST_ON_NET = 12;

function crowdedNets(nets: readonly number[]): (net: number) => boolean {
  const counts = new Map<number, number>();
  for (const net of nets) counts.set(net, (counts.get(net) ?? 0) + 1);
  return (net) => (counts.get(net) ?? 0) > MOST_ON_NET;
}

function makeCheck(
  kind: MeterCheck["kind"],
  state: State,
  { red, black, off }: { readonly red: TestPoint; readonly black: TestPoint; readonly off: readonly Unplugging[] },
): MeterCheck {
  const open = [...off.map(({ id }) => id), ...[red, black].flatMap(({ unplug }) => unplug ?? [])];
  const unplugged = [...new Set(open)].sort(naturalOrder);
  const wanted = [placeOf(red), placeOf(black), ...off.map(({ key, minutes }) => ({ key, minutes }))];
  const places = [...new Map(wanted.map((place) => [place.key, place])).values()];
  const key = `${kind} ${state.id} ${red.id} ${black.id}${unplugged.length > 0 ? ` off ${unplugged.join()}` : ""}`;
  return { kind, key, need: { state: state.id, unplugged, places }, red, black, minutes: COSTS.readingMinutes };
}

/** What a person has at hand. */
interface Equipment {
  /** Ids of the adapters owned; all of the document where absent. */
  readonly adapters?: ReadonlySet<string>;
}

/** A permitted point with the electrical point it touches. */
type TestPoint = ProbePoint & { readonly at: string };

/** Permitted points of a state, best first, and those at the main terminals. */
interface PointsOfState {
  readonly state: State;
  readonly points: readonly TestPoint[];
  readonly positive: TestPoint | undefined;
  readonly negative: TestPoint | undefined;
}

/**
 * The permitted points of a scope in a state, each electrical point once for each connector that is opened for it.
 *
 * @param how The state and the adapters owned.
 */
function touchPoints(
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

function isTouch(point: ProbePoint): point is TestPoint {
  return point.at !== undefined;
}

function isOwned({ adapter }: ProbePoint, { adapters }: Equipment): boolean {
  return adapter === undefined || adapters === undefined || adapters.has(adapter);
}

/** Ground and supply reach all over the machine; only their points in the circuits matter. */
function isFar(harness: Harness, scope: Scope, { at }: TestPoint): boolean {
  const number = harness.nodeNumbers.get(at) ?? -1;
  return !scope.nodes.has(number) && !scope.besideNodes.has(number);
}

/** Of several ways to touch one point with the same connector open, the first: points come best first. */
function bestOfEach(points: readonly TestPoint[]): readonly TestPoint[] {
  const best = new Map<string, TestPoint>();
  for (const point of points) {
    const key = `${point.at} ${point.unplug ?? ""}`;
    if (!best.has(key)) best.set(key, point);
  }
  return [...best.values()];
}

function mainPoint(harness: Harness, state: State, node: number | undefined): TestPoint | undefined {
  if (node === undefined) return undefined;
  const key = harness.nodes[node]?.key ?? "";
  const known = mainsKnown.get(harness) ?? new Map<string, TestPoint | undefined>();
  mainsKnown.set(harness, known);
  const name = `${state.id} ${key}`;
  if (!known.has(name)) known.set(name, isHuge(harness) ? tipAt(harness, state, key) : bestAt(harness, state, node));
  return known.get(name);
}

function bestAt(harness: Harness, state: State, node: number): TestPoint | undefined {
  const { points } = findProbePoints(harness, { nodes: [node] }, state, { refusals: "none" });
  return points.filter(isTouch).find((point) => point.relation === "itself" && point.meters.includes("dc-voltage"));
}

/** A tip on a terminal, judged alone: on a huge rail the question for all its points would take too long. */
function tipAt(harness: Harness, state: State, at: string): TestPoint | undefined {
  const meters = (["dc-voltage", "resistance"] as const).filter(
    (meter) => isContactPermitted(harness, state, { point: at, method: "tip", meter }).kind === "permitted",
  );
  const answer = isContactPermitted(harness, state, { point: at, method: "tip", meter: "dc-voltage" });
  const stud = harness.fitted.terminalStuds.get(at);
  if (answer.kind !== "permitted" || !stud) return undefined;
  return {
    id: `tip@${at}`,
    class: answer.class,
    method: "tip",
    how: `Put the probe on the exposed terminal ${at}.`,
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
const mainsKnown = new WeakMap<Harness, Map<string, TestPoint | undefined>>();

/** Both through one adapter, or both at one opened connector, or both at bare metal nearby. */
function reachedAlike(a: TestPoint, b: TestPoint): boolean {
  if (a.adapter !== undefined || b.adapter !== undefined) {
    return a.adapter === b.adapter && placeOf(a).key === placeOf(b).key;
  }
  if (a.unplug !== undefined || b.unplug !== undefined) return a.unplug === b.unplug;
  return a.zone !== undefined && a.zone === b.zone;
}

/** What has to be reached for a point: the connector, the connector with its adapter, or the zone. */
function placeOf({ adapter, unplug, minutes, zone, at, id }: ProbePoint): CheckPlace {
  if (adapter !== undefined) return { key: `adapter ${adapter} ${(at ?? "").split(":")[0] ?? ""}`, minutes };
  if (unplug !== undefined) return { key: `connector ${unplug}`, minutes };
  return { key: zone === undefined ? id : `zone ${zone} ${minutes}`, minutes };
}

/** A connector that is unplugged for a reading, with what it takes to reach it. */
interface Unplugging extends CheckPlace {
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
 */
function connectorsToUnplug(harness: Harness, scope: Scope): readonly Unplugging[] {
  const found = new Map<string, Unplugging>();
  for (const number of [...scope.nodes, ...scope.besideNodes]) {
    const node = harness.nodes[number];
    if (node?.kind !== "contact" || found.has(node.connector.id)) continue;
    const { connector } = node;
    if (harness.fitted.sides.get(connector.id)?.length !== 2) continue;
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
 * @returns For a net, by the number that conductors alone give it, its module connectors; undefined where one of them may not be opened, so
 *   that no ohmmeter goes there.
 *
 * Source: makers' pages that forbid ohmmeters on control units; which lines are left in place is common practice, no source.
 */
function modulesOnNets(harness: Harness): (net: number) => readonly Unplugging[] | undefined {
  const { ofNode } = waysThrough(harness, "conductors").components;
  const { supply, ground } = railNodes(harness);
  const found = new Map<number, Map<string, Unplugging>>();
  const closed = new Set<number>();
  const openable = new Map<Connector, boolean>();
  harness.nodes.forEach((node, number) => {
    if (node.kind !== "contact" || node.side.id !== "device" || !isOfModule(harness, node.connector)) return;
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
