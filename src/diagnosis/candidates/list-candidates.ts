import type { Fault } from "../../simulation/index.ts";
import type { Component, Element, Harness } from "../../harness-model/index.ts";
import type { JobComplaint } from "../../job-records/index.ts";
import {
  candidateWeight,
  hazardFactors,
  makeCandidates,
  PRIORS,
  type Candidate,
  type FaultMode,
  type PriorTable,
  type ItemSort,
  type WeightFactor,
} from "./candidate.ts";
import {
  connectorCandidates,
  contactCandidates,
  endCandidates,
  partCurrents,
  resistanceLevels,
  wireCandidates,
  type CandidateContext,
} from "./conductor-candidates.ts";
import type { Scope } from "./find-scope.ts";

/** A starting probability changed by the person. `of` is the id of a candidate, of its item, its repair, or a mode of failure. */
export interface PriorEdit {
  readonly of: string;
  readonly factor: number;
  readonly origin: string;
}

/** What is known beforehand beside the scope. */
interface PriorKnowledge {
  readonly complaint?: Pick<JobComplaint, "conditions" | "recentWork">;
  readonly edits?: readonly PriorEdit[];
  /** What fails, by name. */
  readonly failing?: readonly string[];
  readonly priors?: PriorTable;
}

/**
 * Lists everything in a scope that may be the fault, with weights and the reasons for them.
 *
 * @param prior Complaint, recent work, weights changed by the person.
 * @returns Candidates with a weight above 0, the most likely first.
 */
export function listCandidates(harness: Harness, scope: Scope, prior: PriorKnowledge = {}): readonly Candidate[] {
  const priors = prior.priors ?? PRIORS;
  const context: CandidateContext = { harness, priors, scope };
  const found: Candidate[] = [];
  for (const edge of new Set([...scope.edges, ...scope.besideEdges])) {
    found.push(...wireCandidates(context, edge));
    found.push(...elementCandidates(context, edge));
    if (scope.edges.has(edge)) found.push(...contactCandidates(context, edge), ...endCandidates(context, edge));
  }
  for (const connector of connectorsIn(context)) found.push(...connectorCandidates(context, connector));
  const unique = new Map(found.map((candidate) => [candidate.id, candidate]));
  return [...unique.values()]
    .map((candidate) => ({
      ...candidate,
      factors: [
        ...candidate.factors,
        ...complaintFactors(priors, candidate, prior),
        ...namedFactors(priors, candidate, prior),
        ...editFactors(candidate, prior),
      ],
    }))
    .filter((candidate) => candidateWeight(candidate) > 0)
    .sort((a, b) => candidateWeight(b) - candidateWeight(a));
}

function connectorsIn({ harness, scope }: CandidateContext): readonly (typeof harness.document.connectors)[number][] {
  const ids = new Set<string>();
  for (const number of [...scope.nodes, ...scope.besideNodes]) {
    const node = harness.nodes[number];
    if (node?.kind === "contact") ids.add(node.connector.id);
  }
  return [...ids].flatMap((id) => harness.fitted.connectors.get(id) ?? []);
}

/** Modes that water brings about. */
const WATER: ReadonlySet<Candidate["mode"]> = new Set(["bridge", "high-resistance"]);
/** Modes that careless work leaves behind. */
const MISTAKES: ReadonlySet<Candidate["mode"]> = new Set(["cross-wired", "unplugged"]);

function complaintFactors(
  priors: PriorTable,
  candidate: Candidate,
  { complaint }: PriorKnowledge,
): readonly WeightFactor[] {
  if (!complaint) return [];
  const factors: WeightFactor[] = [];
  const { presence, wetness } = complaint.conditions;
  const isIntermittent = candidate.mode === "intermittent";
  if (presence === "intermittent" || presence === "once") {
    const factor = isIntermittent ? priors.comesAndGoes.intermittent : priors.comesAndGoes.steady;
    factors.push({ factor, why: "the complaint is intermittent" });
  } else if (presence === "always") {
    factors.push({
      factor: isIntermittent ? priors.alwaysThere.intermittent : priors.alwaysThere.steady,
      why: "the complaint is always present",
    });
  } else if (isIntermittent) {
    factors.push({ factor: priors.unsaidIntermittent, why: "nobody said that the complaint is intermittent" });
  }
  if (wetness === "wet" && WATER.has(candidate.mode))
    factors.push({ factor: priors.wetComplaint, why: "the complaint shows when wet" });
  const touched = new Set(complaint.recentWork.flatMap((work) => work.touched));
  if (isTouched(candidate, touched)) {
    factors.push({
      factor: MISTAKES.has(candidate.mode) ? priors.recentWorkMistake : priors.recentWork,
      why: "recent work",
    });
  }
  return factors;
}

function namedFactors(
  priors: PriorTable,
  { item }: Candidate,
  { failing = [] }: PriorKnowledge,
): readonly WeightFactor[] {
  const isNamed = item.type === "element" && failing.some((name) => name === item.id || item.id.startsWith(`${name}.`));
  return isNamed ? [{ factor: priors.named, why: "named as not working" }] : [];
}

function isTouched({ item, places }: Candidate, touched: ReadonlySet<string>): boolean {
  const owner = item.id.split(/[:.]/u)[0] ?? item.id;
  if (touched.has(item.id) || touched.has(owner)) return true;
  // What runs past a connector that was opened was not itself opened; a contact in it was.
  const isAtConnector = item.type === "contact" || item.type === "connector";
  return (
    places.segments.some((id) => touched.has(id)) || (isAtConnector && places.connectors.some((id) => touched.has(id)))
  );
}

function editFactors(candidate: Candidate, { edits = [] }: PriorKnowledge): readonly WeightFactor[] {
  const names = new Set([candidate.id, candidate.item.id, candidate.repair, candidate.mode]);
  return edits.filter(({ of }) => names.has(of)).map(({ factor, origin }) => ({ factor, why: origin }));
}

type FaultWays = Partial<Record<FaultMode, readonly (readonly Fault[])[]>>;

/** Candidates of an element: the part itself fails. */
function elementCandidates(context: CandidateContext, edge: number): readonly Candidate[] {
  const { harness, priors, scope } = context;
  const item = harness.edges[edge];
  // A divider has two edges; the first speaks for it.
  if (item?.kind !== "element" || item.key.endsWith(".bottom")) return [];
  const { component, element } = item;
  const sort = sortOf(component, element);
  if (sort === undefined) return [];
  const id = `${component.id}.${element.id}`;
  const zones = component.zone === undefined ? [] : [component.zone];
  const connectors = harness.document.connectors
    .filter((each) => each.component === component.id)
    .map((each) => each.id);
  const places = { connectors, segments: [], zones };
  const inside = {
    item: { type: "element", id } as const,
    sort,
    name: `${component.id} ${element.label ?? component.label}`,
    repair: repairOf(component, element),
    places,
    factors: component.kind === "module" ? [] : hazardFactors(harness, priors, places),
  };
  const ways = waysOf(context, { component, element, id });
  // Beside the circuits only what pulls a shared line down matters.
  return makeCandidates(priors, inside, scope.edges.has(edge) ? ways : pullingDown(ways));
}

function pullingDown({ bridge }: FaultWays): FaultWays {
  return bridge ? { bridge } : {};
}

function sortOf(component: Component, element: Element): ItemSort | undefined {
  if (component.kind === "module") return element.kind === "bar" || element.kind === "load" ? undefined : "module-part";
  switch (element.kind) {
    case "fuse":
      return "fuse";
    case "switch":
    case "contact":
    case "coil":
      return element.kind === "coil" && component.kind !== "relay" && component.kind !== "distribution"
        ? "actuator"
        : "moving-part";
    case "ntc":
    case "divider":
      return "sensor";
    case "resistor":
    case "diode":
      return "resistor";
    case "load":
    case "lamp":
      return component.kind === "sensor" ? "sensor" : "actuator";
    case "driver":
    case "bias":
      return component.kind === "sensor" ? "sensor" : "module-part";
    case "source":
      return element.role === "battery" ? "supply" : "moving-part";
    case "bar":
      return undefined;
  }
}

/** A relay is changed whole: coil and contact are one repair; so is a sensor with all it holds. */
function repairOf(component: Component, element: Element): string {
  if (component.kind === "distribution") {
    if (element.kind === "contact") return `relay ${component.id}.${element.of}`;
    if (element.kind === "coil") return `relay ${component.id}.${element.id}`;
    return `${element.kind} ${component.id}.${element.id}`;
  }
  return element.kind === "fuse" ? `fuse ${component.id}.${element.id}` : `part ${component.id}`;
}

function waysOf(
  { harness }: CandidateContext,
  { component, element, id }: { readonly component: Component; readonly element: Element; readonly id: string },
): FaultWays {
  const volt = harness.document.system.nominalVolt;
  const levels = resistanceLevels(partCurrents(harness).get(id) ?? 0, volt);
  const open: FaultWays = { open: [[{ kind: "open", of: id }]] };
  const resistance: FaultWays = {
    "high-resistance": levels.slice(0, -1).map((ohm) => [{ kind: "high-resistance", of: id, ohm }]),
  };
  const drifts = (...factors: readonly (readonly [number, number])[]): readonly (readonly Fault[])[] =>
    factors.map(([factor, offset]) => [{ kind: "drift", of: id, factor, offset }]);
  const bridge: FaultWays = shortedInside(component, element);
  switch (element.kind) {
    case "fuse":
      return { blown: [[{ kind: "blown", of: id }]] };
    case "switch":
    case "contact":
      return {
        ...resistance,
        "stuck-open": [[{ kind: "stuck-open", of: id }]],
        "stuck-closed": [[{ kind: "stuck-closed", of: id }]],
      };
    case "coil":
      return { ...open, ...bridge, "high-resistance": drifts([1.3, 0], [2, 0], [4, 0]) };
    case "ntc":
      return { ...open, ...bridge, drift: drifts([0.2, 0], [0.6, 0], [1.6, 0], [5, 0]) };
    case "divider":
      // From no output over a little off either way to full output.
      return { ...open, ...bridge, drift: drifts([0, 0.01], [0.6, 0], [1, -0.05], [1, 0.05], [1.4, 0], [0, 0.99]) };
    case "resistor":
      return { ...open, ...bridge, drift: drifts([0.5, 0], [2, 0]) };
    case "load":
    case "lamp":
      return { ...open, ...bridge, "high-resistance": drifts([1.3, 0], [2, 0], [4, 0]) };
    case "diode":
      return { ...open, ...bridge };
    case "source":
      return element.role === "battery"
        ? { drift: worn(id) }
        : { dead: [[{ kind: "stuck-off", of: id }]], "stuck-open": [[{ kind: "stuck-off", of: id }]] };
    case "driver":
      return {
        dead: [[{ kind: "stuck-off", of: id }]],
        "always-on": [[{ kind: "stuck-on", of: id }]],
        open: [[{ kind: "stuck-off", of: id }]],
        bridge: [[{ kind: "stuck-on", of: id }]],
      };
    case "bias":
      return { dead: [[{ kind: "open", of: id }]], open: [[{ kind: "open", of: id }]] };
    case "bar":
      return {};
  }
}

/** A battery from tired to dead: volts at rest as a share of the healthy, and ohms inside that come on top. Common practice, no source. */
const WORN_BATTERY = [
  [0.97, 0.003],
  [0.94, 0.01],
  [1, 0.012],
  [0.9, 0.03],
  [1, 0.05],
  [0.75, 0.1],
] as const;

function worn(id: string): readonly (readonly Fault[])[] {
  return WORN_BATTERY.map(([factor, ohm]) => [
    { kind: "drift", of: id, factor, offset: 0 },
    { kind: "high-resistance", of: id, ohm },
  ]);
}

/** Ohm of a part shorted inside, from firmly to lightly. Common practice, no source. */
const INSIDE_OHMS = [0.1, 1, 10] as const;

function shortedInside(component: Component, element: Element): FaultWays {
  const [first, second] = element.between;
  const hasNames = !first.startsWith("#") && !second.startsWith("#");
  // Terminals of the part are its device contacts; an inner point is named with its component in front.
  const name = (address: string): string =>
    address.startsWith("#") ? `${component.id}${address}` : deviceSide(address);
  return hasNames || component.kind === "distribution"
    ? { bridge: INSIDE_OHMS.map((ohm) => [{ kind: "bridge", between: [name(first), name(second)], ohm }]) }
    : {};
}

function deviceSide(address: string): string {
  const colon = address.lastIndexOf(":");
  return colon < 0 || address.slice(0, colon).endsWith(".device")
    ? address
    : `${address.slice(0, colon)}.device${address.slice(colon)}`;
}
