import type { BranchShape, BranchValues } from "./branch-set.ts";
import type { PlannedShape } from "./eliminate.ts";
import { joinIdeal } from "./join-ideal.ts";
import { planElimination } from "./plan-elimination.ts";

/** A planned shape, or the branches that contradict each other. */
export type Prepared =
  | { readonly kind: "planned"; readonly planned: PlannedShape }
  | { readonly kind: "contradictory"; readonly branches: readonly number[] };

interface KnownPlan {
  readonly ideal: readonly number[];
  readonly planned: PlannedShape;
}

// A plan depends on the shape and on which branches are ideal, both of which rarely change between one solution and the next.
const knownPlans = new WeakMap<BranchShape, KnownPlan[]>();
/** Plans kept for one shape: relays of 0 ohm make it change to and fro. */
const MOST_PLANS = 4;

/**
 * Joins what ideal branches join and plans the elimination. The last plans of a shape are kept: they serve again until another branch
 * becomes ideal or other nodes are to be kept.
 *
 * @param shape Where the branches run.
 * @param values Their values; only those of 0 ohm matter here.
 * @param keep The nodes that are not eliminated.
 */
export function prepareSolver(shape: BranchShape, values: BranchValues, keep: readonly number[]): Prepared {
  const ideal: number[] = [...keep, -1];
  for (let branch = 0; branch < values.ohm.length; branch++) {
    if (values.ohm[branch] === 0) ideal.push(branch, values.volt[branch] ?? 0);
  }
  const plans = knownPlans.get(shape) ?? [];
  const known = plans.find((each) => isSame(each.ideal, ideal));
  if (known) return { kind: "planned", planned: known.planned };
  const joined = joinIdeal(shape, values);
  if (joined.kind === "contradictory") return joined;
  const { clusters } = joined;
  const keptClusters = new Set(keep.map((node) => clusters.ofNode[node] ?? 0));
  const plan = planElimination(shape, clusters, [...keptClusters]);
  const planned = { shape, clusters, plan };
  knownPlans.set(shape, [{ ideal, planned }, ...plans.slice(0, MOST_PLANS - 1)]);
  return { kind: "planned", planned };
}

function isSame(first: readonly number[], second: readonly number[]): boolean {
  return first.length === second.length && first.every((value, at) => value === second[at]);
}
