import type { BranchShape, BranchValues } from "./branch-set.ts";
import type { PlannedShape } from "./eliminate.ts";
import { joinIdeal } from "./join-ideal.ts";
import { planElimination } from "./plan-elimination.ts";

/** A planned shape, or the branches that contradict each other. */
export type Prepared =
  | { readonly kind: "planned"; readonly planned: PlannedShape }
  | { readonly kind: "contradictory"; readonly branches: readonly number[] };

// A plan depends on the shape and on which branches are ideal, both of which rarely change between one solution and the next.
const lastPlans = new WeakMap<BranchShape, { readonly ideal: readonly number[]; readonly planned: PlannedShape }>();

/**
 * Joins what ideal branches join and plans the elimination. The plan of a shape is kept until another branch becomes ideal.
 *
 * @param shape Where the branches run.
 * @param values Their values; only those of 0 ohm matter here.
 * @param keep The node the voltages are to be given against.
 */
export function prepareSolver(shape: BranchShape, values: BranchValues, keep: number): Prepared {
  const ideal: number[] = [keep];
  for (let branch = 0; branch < values.ohm.length; branch++) {
    if (values.ohm[branch] === 0) ideal.push(branch, values.volt[branch] ?? 0);
  }
  const last = lastPlans.get(shape);
  if (last && isSame(last.ideal, ideal)) return { kind: "planned", planned: last.planned };
  const joined = joinIdeal(shape, values);
  if (joined.kind === "contradictory") return joined;
  const { clusters } = joined;
  const plan = planElimination(shape, clusters, [clusters.ofNode[keep] ?? 0]);
  const planned = { shape, clusters, plan };
  lastPlans.set(shape, { ideal, planned });
  return { kind: "planned", planned };
}

function isSame(first: readonly number[], second: readonly number[]): boolean {
  return first.length === second.length && first.every((value, at) => value === second[at]);
}
