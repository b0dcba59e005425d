import { keptFor, naturalOrder } from "../../base/index.ts";
import type { Fault } from "../../simulation/index.ts";
import {
  sideKey,
  isPermittedAt,
  mainTerminals,
  type Cavity,
  type Connector,
  type Harness,
  type HarnessNode,
  type NetKind,
} from "../../harness-model/index.ts";
import { betweenNodes, waysThrough } from "../../connectivity/index.ts";
import { currentsOf, normalCircuit } from "../predict/normal-circuit.ts";
import { hazardFactors, makeCandidates, wirePlaces, type Candidate, type PriorTable } from "./candidate.ts";
import type { Scope } from "./find-scope.ts";

/** Ohm of a wire rubbed through, from firmly to lightly. Common practice, no source. */
const SHORT_OHMS = [0.05, 0.8, 20] as const;
/** Above this a joint counts as carrying a high current, in ampere. */
const HIGH_AMPERE = 30;

/** What the makers of candidates work with. */
export interface CandidateContext {
  readonly harness: Harness;
  readonly priors: PriorTable;
  readonly scope: Scope;
}

/** Candidates of a wire in the circuits: broken, corroded, rubbed through, broken inside its insulation. */
export function wireCandidates(context: CandidateContext, edge: number): readonly Candidate[] {
  const { harness, priors } = context;
  const item = harness.edges[edge];
  if (item?.kind !== "wire") return [];
  const { id, lengthMm = 500 } = item.wire;
  const places = wirePlaces(harness, edge, priors);
  const wire = {
    item: { type: "wire", id } as const,
    sort: "wire" as const,
    name: `Wire ${id}`,
    repair: `wire ${id}`,
    places,
    factors: hazardFactors(harness, priors, places),
    amount: lengthMm / 1000,
  };
  const isInCircuit = context.scope.edges.has(edge);
  const rubbed = shortsToGround(harness, id);
  const shorts = { "short-to-ground": rubbed, "short-to-supply": shortsToSupply(harness, id) };
  const ways = isInCircuit ? { ...seriesWays(context, id), ...shorts } : shorts;
  return makeCandidates(priors, wire, ways);
}

function shortsToGround(harness: Harness, id: string): readonly (readonly Fault[])[] {
  const ground = harness.nodes[mainTerminals(harness).negative ?? -1]?.key;
  if (ground === undefined || isOnGround(harness, id)) return [];
  const fuses = fusesBefore(harness, id);
  return SHORT_OHMS.map((ohm) => {
    const ampere = harness.document.system.nominalVolt / ohm;
    const blown = fuses.filter(({ ratedAmpere }) => ampere > BLOWS_AT * ratedAmpere);
    return [{ kind: "short", of: id, to: ground, ohm }, ...blown.map(({ key }): Fault => ({ kind: "blown", of: key }))];
  });
}

/** A fuse blows soon at this many times its rating. Source: ISO 8820-3, 200 % blows within seconds (from memory). */
const BLOWS_AT = 2;

/** Of the fuses that every way from a wire to the main supply passes the weakest: it goes first. */
function fusesBefore(
  harness: Harness,
  wire: string,
): readonly { readonly key: string; readonly ratedAmpere: number }[] {
  const { positive } = mainTerminals(harness);
  const edge = harness.edgeNumbers.get(wire);
  if (positive === undefined || edge === undefined) return [];
  const { blocks } = waysThrough(harness, "switches-and-fuses");
  const ways = [harness.index.from[edge] ?? 0, harness.index.to[edge] ?? 0].map((from) => {
    const between = betweenNodes(blocks, { from, to: positive });
    return new Set(between.kind === "found" ? between.mustPassEdges : []);
  });
  const [first, second] = ways;
  const passed = [...(first ?? [])].flatMap((number) => {
    const part = harness.edges[number];
    if (part?.kind !== "element" || part.element.kind !== "fuse" || !second?.has(number)) return [];
    return [{ key: part.key, ratedAmpere: part.element.ratedAmpere }];
  });
  return passed.toSorted((a, b) => a.ratedAmpere - b.ratedAmpere).slice(0, 1);
}

/** Ohm of a wire rubbed through to another wire. Common practice, no source. */
const WIRE_TO_WIRE_OHM = 0.1;
const SUPPLIES: ReadonlySet<NetKind> = new Set(["battery-power", "supply"]);

/** Rubbed through to a live wire of the same stretch of harness, if there is one. */
function shortsToSupply(harness: Harness, id: string): readonly (readonly Fault[])[] {
  const wire = harness.fitted.wires.get(id);
  const ownKind = harness.nets.get(wire?.net ?? "")?.kind ?? "signal";
  if (!wire?.route || isOnGround(harness, id) || SUPPLIES.has(ownKind)) return [];
  const segments = new Set<string>(wire.route);
  const live = [...harness.fitted.wires.values()]
    .filter(
      ({ net, route }) =>
        SUPPLIES.has(harness.nets.get(net ?? "")?.kind ?? "signal") && route?.some((each) => segments.has(each)),
    )
    .map((each) => each.id)
    .sort(naturalOrder);
  return live.slice(0, 1).map((to) => [{ kind: "short", of: id, to, ohm: WIRE_TO_WIRE_OHM }]);
}

function isOnGround(harness: Harness, wire: string): boolean {
  const kind = harness.nets.get(harness.fitted.wires.get(wire)?.net ?? "")?.kind;
  return kind === "ground" || kind === "module-ground";
}

/** Open, more resistance, and open now and then. */
function seriesWays(
  { harness }: CandidateContext,
  of: string,
): Readonly<Record<"open" | "high-resistance" | "intermittent", readonly (readonly Fault[])[]>> {
  const ampere = partCurrents(harness).get(of) ?? 0;
  const open: Fault = { kind: "open", of };
  const levels = resistanceLevels(ampere, harness.document.system.nominalVolt);
  return {
    open: [[open]],
    "high-resistance": levels.map((ohm) => [{ kind: "high-resistance", of, ohm }]),
    intermittent: [[open]],
  };
}

/** Candidates of a mated contact in the circuits. */
export function contactCandidates(context: CandidateContext, edge: number): readonly Candidate[] {
  const { harness, priors } = context;
  const item = harness.edges[edge];
  if (item?.kind !== "mating") return [];
  const { connector, cavity } = item;
  const places = placesOf(connector);
  const isSealed = cavity.sealed ?? connector.sealed;
  const joint = {
    item: { type: "contact", id: item.key } as const,
    sort: isSealed ? ("sealed-contact" as const) : ("unsealed-contact" as const),
    name: `Contact ${item.key}`,
    repair: `contact ${item.key}`,
    places,
    factors: [...hazardFactors(harness, priors, places), ...currentFactors(context, item.key)],
  };
  return makeCandidates(priors, joint, seriesWays(context, item.key));
}

/** Candidates of the end of a wire at a splice or stud: crimp or ring. */
export function endCandidates(context: CandidateContext, edge: number): readonly Candidate[] {
  const { harness } = context;
  const item = harness.edges[edge];
  if (item?.kind !== "wire") return [];
  const ends = [harness.index.from[edge] ?? -1, harness.index.to[edge] ?? -1].map((end) => harness.nodes[end]);
  return ends.flatMap((node) => (node ? endAt(context, item.wire.id, node) : []));
}

function endAt(context: CandidateContext, wire: string, node: HarnessNode): readonly Candidate[] {
  if (node.kind !== "splice" && node.kind !== "stud") return [];
  const { harness, priors } = context;
  const item = node.kind === "splice" ? node.splice : node.stud;
  const segments = node.kind === "splice" && node.splice.at ? [node.splice.at.segment] : [];
  const places = { connectors: [], segments, zones: item.zone === undefined ? [] : [item.zone] };
  const of = `${wire}@${node.key}`;
  const end = {
    item: { type: node.kind, id: node.key } as const,
    sort: node.kind === "splice" ? ("splice-end" as const) : ("ring" as const),
    name: node.kind === "splice" ? `Crimp of ${wire} in splice ${node.key}` : `Ring terminal of ${wire} at ${node.key}`,
    repair: node.kind === "splice" ? `splice ${node.key}` : `ring ${of}`,
    places,
    factors: [...hazardFactors(harness, priors, places), ...currentFactors(context, of)],
  };
  return makeCandidates(priors, end, seriesWays(context, of)).map((each) => ({ ...each, id: `${each.mode} ${of}` }));
}

function currentFactors({ harness, priors }: CandidateContext, of: string): readonly { factor: number; why: string }[] {
  const ampere = partCurrents(harness).get(of) ?? 0;
  return ampere > HIGH_AMPERE ? [{ factor: priors.highCurrent, why: `carries ${Math.round(ampere)} A` }] : [];
}

/**
 * The largest current that each wire, contact, joint and element carries in any state of the healthy machine.
 *
 * @returns Ampere by owner: `W78`, `XE1:1`, `A3.F3`, `W78@SP13`. States without a steady solution are passed over.
 */
export const partCurrents = keptFor((harness: Harness): ReadonlyMap<string, number> => {
  const currents = new Map<string, number>();
  for (const { id } of harness.document.states) {
    const answer = normalCircuit(harness, id);
    if (answer.kind !== "settled") continue;
    for (const [of, ampere] of currentsOf(answer)) currents.set(of, Math.max(currents.get(of) ?? 0, ampere));
  }
  return currents;
});

/** Share of the supply that a bad joint takes at each severity, from what is noticed at the limit to all but open. */
const DROP_SHARES = [0.03, 0.15, 0.6, 3] as const;
/** Below this the current says nothing of what resistance would matter. */
const LEAST_AMPERE = 2e-5;

/**
 * Added resistances worth telling apart on a part that carries a current: those that take a little, a third, or nearly all of the voltage.
 *
 * @param ampere Largest healthy current.
 * @param nominalVolt Nominal voltage of the machine.
 * @returns Ohms, rising.
 */
export function resistanceLevels(ampere: number, nominalVolt: number): readonly number[] {
  if (ampere < 1e-9) return [20, 200, 2000, 20_000];
  const volt = ampere < 0.05 ? 5 : nominalVolt;
  return DROP_SHARES.map((share) => Number(((share * volt) / Math.max(ampere, LEAST_AMPERE)).toPrecision(2)));
}

/** Ohm between two cavities, from metal over brine to damp. Common practice, no source. */
const BRIDGE_OHMS = [0.5, 50, 5000] as const;

/** Candidates of a connector as a whole: left off, bridged between neighbours, two wires in each other's place. */
export function connectorCandidates(context: CandidateContext, connector: Connector): readonly Candidate[] {
  const { harness, priors, scope } = context;
  const sides = harness.fitted.sides.get(connector.id) ?? [];
  const places = placesOf(connector);
  const isUsed = connector.cavities.some((cavity) =>
    scope.edges.has(harness.edgeNumbers.get(`${connector.id}:${cavity.id}`) ?? -1),
  );
  const plug = {
    places,
    factors: hazardFactors(harness, priors, places),
    item: { type: "connector", id: connector.id } as const,
    sort: "plug" as const,
    name: `Connector ${connector.id}`,
    repair: `plug ${connector.id}`,
  };
  const isPluggable = sides.length === 2 && isPermittedAt(connector, "unplug");
  const off =
    isUsed && isPluggable
      ? makeCandidates(priors, plug, { unplugged: [[{ kind: "unplugged", of: connector.id }]] })
      : [];
  return [...off, ...neighbours(connector).flatMap((pair) => pairCandidates(context, connector, pair))];
}

function placesOf({ id, zone }: Connector): Candidate["places"] {
  return { connectors: [id], segments: [], zones: zone === undefined ? [] : [zone] };
}

function pairCandidates(
  context: CandidateContext,
  connector: Connector,
  [first, second]: readonly [Cavity, Cavity],
): readonly Candidate[] {
  const { harness, priors, scope } = context;
  const side = (harness.fitted.sides.get(connector.id) ?? []).find((each) => each.id !== "device");
  if (!side) return [];
  const nameOf = (cavity: Cavity): string => `${sideKey(connector, side)}:${cavity.id}`;
  const [one, other] = [nameOf(first), nameOf(second)];
  const numbers = [one, other].flatMap((name) => harness.nodeNumbers.get(name) ?? []);
  const near = numbers.filter((number) => scope.nodes.has(number) || scope.besideNodes.has(number));
  if (numbers.length < 2 || near.length === 0) return [];
  const places = placesOf(connector);
  const pair = {
    item: { type: "connector", id: connector.id } as const,
    sort: "cavity-pair" as const,
    name: `Cavities ${connector.id}:${first.id} and ${second.id}`,
    repair: `cavities ${connector.id}:${first.id} ${second.id}`,
    places,
    factors: hazardFactors(harness, priors, places),
  };
  const bridges = BRIDGE_OHMS.map((ohm) => [{ kind: "bridge" as const, between: [one, other] as const, ohm }]);
  const swapped = near.length === 2 ? [[{ kind: "cross-wired" as const, cavities: [one, other] as const }]] : [];
  return makeCandidates(priors, pair, { bridge: bridges, "cross-wired": swapped }).map((each) => ({
    ...each,
    id: `${each.mode} ${connector.id}:${first.id} ${connector.id}:${second.id}`,
  }));
}

/** Cavities that stand next to each other on the face. */
function neighbours({ cavities }: Connector): readonly (readonly [Cavity, Cavity])[] {
  return cavities.flatMap((first, index) =>
    cavities
      .slice(index + 1)
      .filter((second) => Math.hypot(first.x - second.x, first.y - second.y) < 1.25)
      .map((second): readonly [Cavity, Cavity] => [first, second]),
  );
}
