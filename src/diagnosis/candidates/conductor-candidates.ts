import type { Fault } from "../../electrics/index.ts";
import { naturalOrder } from "../../base/index.ts";
import type { Harness, HarnessNode, NetKind } from "../../model/index.ts";
import { betweenNodes, mainTerminals, waysThrough } from "../../trace/index.ts";
import type { Candidate } from "./candidate.ts";
import { makeCandidates } from "./make-candidate.ts";
import { hazardFactors, wirePlaces } from "./place-factors.ts";
import type { PriorTable } from "./prior-table.ts";
import type { Scope } from "./find-scope.ts";
import { partCurrents, resistanceLevels } from "./severity.ts";

/** Ohm of a wire rubbed through, firmly and lightly. Common practice, no source. */
const SHORT_OHMS = [0.05, 3] as const;
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
  const thing = harness.edges[edge];
  if (thing?.kind !== "wire") return [];
  const { id, lengthMm = 500 } = thing.wire;
  const places = wirePlaces(harness, edge);
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
  const blown = fusesBefore(harness, id).map((of): Fault => ({ kind: "blown", of }));
  return SHORT_OHMS.map((ohm) => {
    const short: Fault = { kind: "short", of: id, to: ground, ohm };
    // A firm touch blows the fuse of the line, a light one may not.
    return ohm < 1 ? [short, ...blown] : [short];
  });
}

/** Of the fuses that every way from a wire to the main supply passes the weakest: it goes first. */
function fusesBefore(harness: Harness, wire: string): readonly string[] {
  const { positive } = mainTerminals(harness);
  const edge = harness.edgeNumbers.get(wire);
  if (positive === undefined || edge === undefined) return [];
  const { blocks } = waysThrough(harness, "series");
  const ways = [harness.index.from[edge] ?? 0, harness.index.to[edge] ?? 0].map((from) => {
    const between = betweenNodes(blocks, { from, to: positive });
    return new Set(between.kind === "found" ? between.mustPassEdges : []);
  });
  const [first, second] = ways;
  const passed = [...(first ?? [])].flatMap((number) => {
    const part = harness.edges[number];
    if (part?.kind !== "element" || part.element.kind !== "fuse" || !second?.has(number)) return [];
    return [{ key: part.key, ampere: part.element.ratedAmpere }];
  });
  return passed
    .toSorted((a, b) => a.ampere - b.ampere)
    .slice(0, 1)
    .map(({ key }) => key);
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
): Readonly<Record<"open" | "resistance" | "intermittent", readonly (readonly Fault[])[]>> {
  const ampere = partCurrents(harness).get(of) ?? 0;
  const open: Fault = { kind: "open", of };
  const levels = resistanceLevels(ampere, harness.document.system.nominalVolt);
  return { open: [[open]], resistance: levels.map((ohm) => [{ kind: "resistance", of, ohm }]), intermittent: [[open]] };
}

/** Candidates of a mated contact in the circuits. */
export function contactCandidates(context: CandidateContext, edge: number): readonly Candidate[] {
  const { harness, priors } = context;
  const thing = harness.edges[edge];
  if (thing?.kind !== "mating") return [];
  const { connector, cavity } = thing;
  const places = {
    connectors: [connector.id],
    segments: [],
    zones: connector.zone === undefined ? [] : [connector.zone],
  };
  const isSealed = cavity.sealed ?? connector.sealed;
  const joint = {
    item: { type: "contact", id: thing.key } as const,
    sort: isSealed ? ("sealed-contact" as const) : ("unsealed-contact" as const),
    name: `Contact ${thing.key}`,
    repair: `contact ${thing.key}`,
    places,
    factors: [...hazardFactors(harness, priors, places), ...currentFactors(context, thing.key)],
  };
  return makeCandidates(priors, joint, seriesWays(context, thing.key));
}

/** Candidates of the end of a wire at a splice or stud: crimp or ring. */
export function endCandidates(context: CandidateContext, edge: number): readonly Candidate[] {
  const { harness } = context;
  const thing = harness.edges[edge];
  if (thing?.kind !== "wire") return [];
  const ends = [harness.index.from[edge] ?? -1, harness.index.to[edge] ?? -1].map((end) => harness.nodes[end]);
  return ends.flatMap((node) => (node ? endAt(context, thing.wire.id, node) : []));
}

function endAt(context: CandidateContext, wire: string, node: HarnessNode): readonly Candidate[] {
  if (node.kind !== "splice" && node.kind !== "stud") return [];
  const { harness, priors } = context;
  const thing = node.kind === "splice" ? node.splice : node.stud;
  const segments = node.kind === "splice" && node.splice.at ? [node.splice.at.segment] : [];
  const places = { connectors: [], segments, zones: thing.zone === undefined ? [] : [thing.zone] };
  const of = `${wire}@${node.key}`;
  const end = {
    item: { type: node.kind, id: node.key } as const,
    sort: node.kind === "splice" ? ("splice-end" as const) : ("ring" as const),
    name: node.kind === "splice" ? `Crimp of ${wire} in splice ${node.key}` : `Ring of ${wire} at ${node.key}`,
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
