import { importProblem } from "../import-problem.ts";
import type { DraftParts } from "./draft-parts.ts";

/** Lists all labels of wires once any net is listed; what a net is for stays open where the file does not say it. */
export function completeNets(parts: DraftParts): void {
  if (parts.nets.length === 0) return;
  const listed = new Set(parts.nets.map((net) => net.id));
  const unlisted = new Set(parts.wires.flatMap(({ net }) => (net === undefined || listed.has(net) ? [] : [net])));
  parts.nets.push(...[...unlisted].map((id) => ({ id })));
  if (unlisted.size > 0) parts.problems.push(importProblem("net-kinds-missing", {}, { nets: unlisted.size }));
}
