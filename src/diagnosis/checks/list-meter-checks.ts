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
 * negative and the points at opened connectors in pairs, control units on the line unplugged. Points come from the safety rules only.
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
      ? ohmChecks(harness, points, modules)
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
    const own = harness.nodes[harness.nodeNumbers.get(red.at) ?? -1];
    const ownConnector = own?.kind === "contact" ? own.connector.id : "";
    for (const off of pluggable) if (off.id !== ownConnector) add(red, negative, [off]);
  }
  return checks;
}

/** Key on and nothing more: the state in which connectors are unplugged to see whether a reading comes back. */
function isKeyOnly({ conditions }: State): boolean {
  return conditions.length === 1 && conditions[0] === "key-on";
}

function ohmChecks(
  harness: Harness,
  of: PointsOfState,
  modules: (net: number) => readonly Unplugging[],
): readonly MeterCheck[] {
  const { state, negative } = of;
  const points = of.points.filter(({ meters }) => meters.includes("ohms"));
  const { ofNode } = waysThrough(harness, "conductors").components;
  const netOf = ({ at }: Touch): number => ofNode[harness.nodeNumbers.get(at) ?? -1] ?? -1;
  const checks: MeterCheck[] = [];
  const add = (red: Touch, black: Touch): void => {
    const off = [...modules(netOf(red)), ...modules(netOf(black))];
    const others = off.filter(({ id }) => id !== red.unplug && id !== black.unplug);
    checks.push(makeCheck("ohms", state, { red, black, off: others }));
  };
  points.forEach((red, index) => {
    if (negative && red.at !== negative.at) add(red, negative);
    for (const black of points.slice(index + 1)) {
      // Two opened connectors are worth it for a piece of harness only.
      const isPiece = red.unplug !== undefined && black.unplug !== undefined && netOf(red) === netOf(black);
      if (red.at !== black.at && (isPiece || reachedAlike(red, black))) add(red, black);
    }
  });
  return checks;
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
