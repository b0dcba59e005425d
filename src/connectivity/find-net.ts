import type { Harness } from "../harness-model/index.ts";
import { reach } from "./graph/index.ts";
import { collectItems, type Item } from "./item.ts";
import { waysThrough } from "./passages.ts";
import type { Resolved } from "./resolve.ts";

/** What conductors alone join to a point: one electrical node, whatever its labels say. */
interface Net {
  readonly kind: "net";
  readonly nodes: readonly number[];
  readonly edges: readonly number[];
  readonly items: readonly Item[];
  /** The labels its wires carry, each once; two labels on one net are legal and worth a look. */
  readonly labels: readonly string[];
}

/**
 * The net of a thing: wires, mated contacts, splices and studs joined to it without passing through any element.
 *
 * @param of A resolved thing; all its points are started from, so a component gives all nets it hangs on.
 */
export function findNet(harness: Harness, of: Resolved): Net {
  const { passage } = waysThrough(harness, "conductors");
  const { order } = reach(harness.index, passage, of.groups.flat());
  const nodes = [...order];
  const edges = new Set<number>();
  const { offsets, arcEdges } = harness.index;
  for (const node of nodes) {
    for (let arc = offsets[node] ?? 0; arc < (offsets[node + 1] ?? 0); arc++) {
      const edge = arcEdges[arc] ?? -1;
      if (passage.edges[edge]) edges.add(edge);
    }
  }
  const labels = new Set<string>();
  for (const number of edges) {
    const edge = harness.edges[number];
    if (edge?.kind === "wire" && edge.wire.net !== undefined) labels.add(edge.wire.net);
  }
  return { kind: "net", nodes, edges: [...edges], items: collectItems(harness, { nodes, edges }), labels: [...labels] };
}
