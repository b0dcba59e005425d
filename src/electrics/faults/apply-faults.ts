import { err, ok, type Result } from "../../base/index.ts";
import type { Harness } from "../../model/index.ts";
import type { PartList } from "../network/part.ts";
import type { QuestionProblem } from "../network/situation.ts";
import { applyFault } from "./apply-fault.ts";
import type { Fault } from "./fault.ts";
import { PartPatch } from "./part-patch.ts";

/** Wires change places before anything is done to them, and new ways between nodes come last. */
const ORDER: Readonly<Partial<Record<Fault["kind"], number>>> = { swapped: -1, short: 1, bridge: 1 };

/**
 * Puts faults into a list of parts; any number, any mixture.
 *
 * @param harness The machine the list was made from.
 * @param list The healthy parts.
 * @param faults The faults.
 * @returns A new list, or everything that could not be applied.
 */
export function applyFaults(
  harness: Harness,
  list: PartList,
  faults: readonly Fault[],
): Result<PartList, readonly QuestionProblem[]> {
  if (faults.length === 0) return ok(list);
  const patch = new PartPatch(harness, list);
  const problems = faults
    .toSorted((a, b) => (ORDER[a.kind] ?? 0) - (ORDER[b.kind] ?? 0))
    .flatMap((fault) => applyFault(patch, fault) ?? []);
  return problems.length > 0 ? err(problems) : ok(patch.finish());
}
