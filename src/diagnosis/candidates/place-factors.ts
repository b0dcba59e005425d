import type { Harness, Hazard } from "../../model/index.ts";
import type { CandidatePlaces, WeightFactor } from "./candidate.ts";
import type { PriorTable } from "./prior-table.ts";

/** Where a wire runs: its connectors, segments and zones. */
export function wirePlaces(harness: Harness, edge: number): CandidatePlaces {
  const thing = harness.edges[edge];
  if (thing?.kind !== "wire") return { connectors: [], segments: [], zones: [] };
  const segments = thing.wire.route ?? [];
  const zones = segments.flatMap((id) => harness.segments.get(id)?.zone ?? []);
  const ends = [harness.index.from[edge] ?? -1, harness.index.to[edge] ?? -1].map((end) => harness.nodes[end]);
  const connectors = ends.flatMap((node) => (node?.kind === "contact" ? [node.connector.id] : []));
  return { connectors, segments, zones: [...new Set(zones)] };
}

/**
 * Factors for the dangers of the places a thing lies in: those of its segments and, where it lies in none, those of its zones. Of several
 * dangers only the largest factor counts, because they do not add up to a certainty.
 *
 * @param harness The harness.
 * @param priors The weights.
 * @param places The places.
 */
export function hazardFactors(harness: Harness, priors: PriorTable, places: CandidatePlaces): readonly WeightFactor[] {
  const inSegments = places.segments.flatMap((id) => harness.segments.get(id)?.hazards ?? []);
  const inZones = harness.document.zones
    .filter((zone) => places.zones.includes(zone.id))
    .flatMap(({ hazards = [] }) => hazards);
  // A danger that only some states have is one to people, not to the harness.
  const lasting = (inSegments.length > 0 || places.segments.length > 0 ? inSegments : inZones).filter(
    ({ states }) => states === undefined,
  );
  let worst: { readonly hazard: Hazard; readonly factor: number } | undefined;
  for (const hazard of lasting) {
    const factor = priors.hazards[hazard.kind] ?? 1;
    if (factor > (worst?.factor ?? 1)) worst = { hazard, factor };
  }
  return worst ? [{ factor: worst.factor, why: worst.hazard.text }] : [];
}
