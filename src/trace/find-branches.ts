import type { Harness } from "../model/index.ts";
import { edgeItem, jointId, nodeItem } from "./collect-items.ts";
import type { Item } from "./item.ts";

/** A place where a part of the harness has other wires leading away from it. */
export interface Branch {
  readonly at: Item;
  /** The wires that lead away, each with the thing at its far end. */
  readonly ways: readonly { readonly wire: Item; readonly to: Item }[];
}

/**
 * Where a part of the harness branches: its splices, studs and contacts with wires that do not belong to the part.
 *
 * @param harness The harness.
 * @param part Node and edge numbers of the part.
 */
export function findBranches(
  harness: Harness,
  part: { readonly nodes: Iterable<number>; readonly edges: ReadonlySet<number> },
): readonly Branch[] {
  const branches: Branch[] = [];
  const { offsets, targets, arcEdges } = harness.index;
  for (const number of part.nodes) {
    const node = harness.nodes[number];
    if (!node || node.kind === "inner") continue;
    const ways: { wire: Item; to: Item }[] = [];
    for (let arc = offsets[number] ?? 0; arc < (offsets[number + 1] ?? 0); arc++) {
      const edge = harness.edges[arcEdges[arc] ?? -1];
      const far = harness.nodes[targets[arc] ?? -1];
      if (!far || edge?.kind !== "wire" || part.edges.has(arcEdges[arc] ?? -1)) continue;
      const to = far.kind === "contact" ? ({ type: "contact", id: jointId(far) } as const) : nodeItem(far);
      ways.push({ wire: edgeItem(edge), to });
    }
    if (ways.length > 0)
      branches.push({ at: node.kind === "contact" ? { type: "contact", id: jointId(node) } : nodeItem(node), ways });
  }
  return branches;
}
