import { naturalOrder } from "../../base/index.ts";
import { findPoint } from "../faults/find-target.ts";
import type { Harness } from "../../model/index.ts";
import type { Settled } from "./settle.ts";

/** The voltage of a point, or that it has none because nothing ties it to the rest. */
export type NodeVolts =
  { readonly kind: "volts"; readonly volt: number } | { readonly kind: "floating"; readonly island: string };

/**
 * The voltage of a node against another one.
 *
 * @param settled A settled circuit.
 * @param node Number of the node.
 * @param reference Number of the node at 0 V; the negative supply terminal when left out.
 * @returns Volt; `floating` with the name of its island if no current can flow between the two.
 */
export function nodeVolts(settled: Settled, node: number, reference = settled.list.reference): NodeVolts {
  const { volts, islands } = settled.solved;
  if (islands[node] !== islands[reference])
    return { kind: "floating", island: islandName(settled, floatingOne(settled, node, reference)) };
  return { kind: "volts", volt: (volts[node] ?? 0) - (volts[reference] ?? 0) };
}

/** Of two nodes in different islands the one that is not tied to the supply. */
function floatingOne({ solved, list }: Settled, node: number, reference: number): number {
  return solved.islands[node] === solved.islands[list.reference] ? reference : node;
}

/**
 * A name for the island of a node: the first of its points in natural order, points a person can see before inner ones.
 *
 * @param settled A settled circuit.
 * @param node A node of the island.
 */
export function islandName({ list, solved }: Settled, node: number): string {
  const island = solved.islands[node];
  const members = list.nodeKeys.filter((_, at) => solved.islands[at] === island);
  const visible = members.filter((key) => !key.includes("#") && !key.includes("@"));
  return (visible.length > 0 ? visible : members).toSorted(naturalOrder)[0] ?? "";
}

/**
 * Finds a point in a settled circuit.
 *
 * @param harness The machine.
 * @param settled Its settled circuit.
 * @param name The point: `A1.X1:36` (harness half), `A1.X1.device:36`, `XT1m:1`, `SP11`, `G2+`, `A3#bus`, or the ring `W06@GND-C1`.
 * @returns The number of the node, or undefined where the build has no such point.
 */
export function pointNumber(harness: Harness, settled: Settled, name: string): number | undefined {
  return findPoint(harness, settled.list, name);
}
