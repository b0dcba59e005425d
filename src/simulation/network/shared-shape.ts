import { keptFor } from "../../base/index.ts";
import type { Harness } from "../../harness-model/index.ts";
import type { BranchShape } from "../solver/branch-set.ts";

// Plans of elimination hang on the shape object, so equal shapes are made one: those of a harness in its states, and those that the
// same faults make of one.
const ofHarness = new WeakMap<Harness, BranchShape>();
const ofShape = keptFor((_: BranchShape) => new Map<string, BranchShape>());

/** More derived shapes than this are not kept. */
const MOST_KEPT = 500;

/**
 * The shape of a harness, the same object as before if it is the same shape.
 *
 * @param harness The harness it was made from.
 */
export function shareShape(harness: Harness, shape: BranchShape): BranchShape {
  const known = ofHarness.get(harness);
  if (known && known.nodeCount === shape.nodeCount && isSame(known.from, shape.from) && isSame(known.to, shape.to))
    return known;
  ofHarness.set(harness, shape);
  return shape;
}

/**
 * A shape made by changing some ends of another and adding branches, the same object as before if it was made before.
 *
 * @param base The shape it was made from.
 */
export function shareDerived(base: BranchShape, shape: BranchShape): BranchShape {
  const key = differences(base, shape);
  const derived = ofShape(base);
  const known = derived.get(key);
  if (known) return known;
  if (derived.size >= MOST_KEPT) derived.clear();
  derived.set(key, shape);
  return shape;
}

function differences(base: BranchShape, shape: BranchShape): string {
  const found: number[] = [shape.nodeCount];
  shape.from.forEach((from, at) => {
    const to = shape.to[at] ?? 0;
    if (base.from[at] !== from || base.to[at] !== to) found.push(at, from, to);
  });
  return found.join(" ");
}

function isSame(first: Int32Array, second: Int32Array): boolean {
  return first.length === second.length && first.every((value, at) => value === second[at]);
}
