import { naturalOrder } from "../../base/index.ts";
import type { Harness, State } from "../../model/index.ts";
import { waysThrough } from "../../trace/index.ts";
import type { Scope } from "../candidates/find-scope.ts";
import { statesToMeasure } from "../predict/healthy-circuit.ts";
import type { MeterCheck } from "./check.ts";
import { COSTS } from "./cost-table.ts";
import { placeOf, reachedAlike, touchPoints, type Equipment, type PointsOfState, type Touch } from "./touch-points.ts";
import { connectorsToUnplug, modulesOnNets, type Unplugging } from "./unplugging.ts";

/**
 * Lists the meter checks of a scope: pairs of permitted points, in every state worth measuring in, with what must be unplugged.
 *
 * Volts: from each point to the main negative, to the main positive, and to the points reached in the same way; besides each point that is
 * reached without unplugging anything, with one connector of the scope unplugged. Ohms: in isolated states, each point to the main
 * negative, also with one connector of its line unplugged, points of one line from end to end, and points reached in the same way in pairs,
 * control units on the line unplugged. Points come from the safety rules only.
 *
 * @param harness The harness.
 * @param scope The part of the machine concerned.
 * @param equipment Adapters owned.
 */
export function listMeterChecks(harness: Harness, scope: Scope, equipment: Equipment = {}): readonly MeterCheck[] {
  const pluggable = connectorsToUnplug(harness, scope);
  const modules = modulesOnNets(harness);
  const checks = statesToMeasure(harness, scope.edges).flatMap((state) => {
    const points = touchPoints(harness, scope, { state, equipment });
    return state.conditions.includes("isolated")
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
  const points = of.points.filter(({ meters }) => meters.includes("volts"));
  const checks: MeterCheck[] = [];
  const add = (red: Touch, black: Touch | undefined, off: readonly Unplugging[] = []): void => {
    if (black && red.at !== black.at) checks.push(makeCheck("volts", state, { red, black, off }));
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
function ownConnector(harness: Harness, { at }: Touch): string | undefined {
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
  const points = of.points.filter(({ meters }) => meters.includes("ohms"));
  const { ofNode } = waysThrough(harness, "conductors").components;
  const netOf = ({ at }: Touch): number => ofNode[harness.nodeNumbers.get(at) ?? -1] ?? -1;
  const isCrowded = crowdedNets(points.map(netOf));
  const onNet = connectorsOnNets(harness, pluggable);
  const checks: MeterCheck[] = [];
  const add = (red: Touch, black: Touch, alsoOff: readonly Unplugging[] = []): void => {
    const own = [modules(netOf(red)), modules(netOf(black))];
    if (own.includes(undefined)) return;
    const off = [...own.flatMap((each) => each ?? []), ...alsoOff];
    const others = off.filter(({ id }) => id !== red.unplug && id !== black.unplug);
    checks.push(makeCheck("ohms", state, { red, black, off: others }));
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
  { red, black, off }: { readonly red: Touch; readonly black: Touch; readonly off: readonly Unplugging[] },
): MeterCheck {
  const open = [...off.map(({ id }) => id), ...[red, black].flatMap(({ unplug }) => unplug ?? [])];
  const unplugged = [...new Set(open)].sort(naturalOrder);
  const wanted = [placeOf(red), placeOf(black), ...off.map(({ key, minutes }) => ({ key, minutes }))];
  const places = [...new Map(wanted.map((place) => [place.key, place])).values()];
  const key = `${kind} ${state.id} ${red.id} ${black.id}${unplugged.length > 0 ? ` off ${unplugged.join()}` : ""}`;
  return { kind, key, need: { state: state.id, unplugged, places }, red, black, minutes: COSTS.readingMinutes };
}
