import type { JobComplaint } from "../../records/index.ts";
import type { Harness } from "../../model/index.ts";
import { candidateWeight, type Candidate, type WeightFactor } from "./candidate.ts";
import { contactCandidates, endCandidates, wireCandidates, type CandidateContext } from "./conductor-candidates.ts";
import { connectorCandidates } from "./connector-candidates.ts";
import { elementCandidates } from "./element-candidates.ts";
import type { Scope } from "./find-scope.ts";
import { PRIORS, type PriorTable } from "./prior-table.ts";

/** A weight changed by the person. `of` is the id of a candidate, of its thing, its repair, or a way of failing. */
export interface PriorEdit {
  readonly of: string;
  readonly factor: number;
  readonly origin: string;
}

/** What is known beforehand beside the scope. */
export interface Beforehand {
  readonly complaint?: Pick<JobComplaint, "conditions" | "recentWork">;
  readonly edits?: readonly PriorEdit[];
  readonly priors?: PriorTable;
}

/**
 * Lists everything in a scope that may be the fault, with weights and the reasons for them.
 *
 * @param harness The harness.
 * @param scope The part of the machine concerned.
 * @param beforehand Complaint, recent work, weights changed by the person.
 * @returns Candidates with a weight above 0, the most likely first.
 */
export function listCandidates(harness: Harness, scope: Scope, beforehand: Beforehand = {}): readonly Candidate[] {
  const priors = beforehand.priors ?? PRIORS;
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
        ...complaintFactors(priors, candidate, beforehand),
        ...editFactors(candidate, beforehand),
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
const WATER: ReadonlySet<Candidate["mode"]> = new Set(["bridge", "resistance"]);
/** Modes that careless work leaves behind. */
const MISTAKES: ReadonlySet<Candidate["mode"]> = new Set(["swapped", "unplugged"]);

function complaintFactors(
  priors: PriorTable,
  candidate: Candidate,
  { complaint }: Beforehand,
): readonly WeightFactor[] {
  if (!complaint) return [];
  const factors: WeightFactor[] = [];
  const { presence, wetness } = complaint.conditions;
  const isIntermittent = candidate.mode === "intermittent";
  if (presence === "comes-and-goes" || presence === "happened-once") {
    const factor = isIntermittent ? priors.comesAndGoes.intermittent : priors.comesAndGoes.steady;
    factors.push({ factor, why: "the complaint comes and goes" });
  } else if (presence === "always") {
    factors.push({
      factor: isIntermittent ? priors.alwaysThere.intermittent : priors.alwaysThere.steady,
      why: "the complaint is always there",
    });
  }
  if (wetness === "wet" && WATER.has(candidate.mode))
    factors.push({ factor: priors.wetComplaint, why: "the complaint comes with water" });
  const touched = new Set(complaint.recentWork.flatMap((work) => work.touched));
  if (isTouched(candidate, touched)) {
    factors.push({
      factor: MISTAKES.has(candidate.mode) ? priors.recentWorkMistake : priors.recentWork,
      why: "opened or repaired lately",
    });
  }
  return factors;
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

function editFactors(candidate: Candidate, { edits = [] }: Beforehand): readonly WeightFactor[] {
  const names = new Set([candidate.id, candidate.item.id, candidate.repair, candidate.mode]);
  return edits.filter(({ of }) => names.has(of)).map(({ factor, origin }) => ({ factor, why: origin }));
}
