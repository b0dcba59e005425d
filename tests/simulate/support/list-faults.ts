import { findScope, listCandidates, listHypotheses, type HypothesisList } from "ohmward/diagnosis";
import type { Harness } from "ohmward/harness-model";
import { findCircuits } from "ohmward/connectivity";

/** Every single fault of every circuit of a machine, each once. */
export function listFaults(harness: Harness): HypothesisList {
  const names = new Set(findCircuits(harness).all.map(({ component, serves }) => component ?? serves.id));
  const candidates = [...names].flatMap((name) => listCandidates(harness, findScope(harness, [name])));
  return listHypotheses([...new Map(candidates.map((candidate) => [candidate.id, candidate])).values()]);
}
