import type { Harness } from "../model/index.ts";
import { edgeItem, nodeItem } from "./collect-items.ts";
import { firstBlocked, type Passage } from "./graph/index.ts";
import type { Item } from "./item.ts";
import { railNodes, waysThrough } from "./passages.ts";
import type { Resolved } from "./resolve.ts";

/**
 * Where a path is cut: at an element that this width of trace does not run through, at the supply or the ground, or nowhere in
 * particular because nothing joins the two on this build.
 */
export type Cut =
  | { readonly kind: "element"; readonly at: Item }
  | { readonly kind: "rail"; readonly at: Item; readonly rail: "supply" | "ground" }
  | { readonly kind: "apart" }
  | { readonly kind: "same" };

/**
 * Says where the way between two things is cut.
 *
 * @param harness The harness.
 * @param ends The two things.
 * @param narrow The passage that found no path.
 */
export function whereCut(harness: Harness, ends: readonly [Resolved, Resolved], narrow: Passage): Cut {
  const wider = waysThrough(harness, "everything").passage;
  const [first, second] = ends.map((end) => end.groups.flat());
  if (!first || !second) return { kind: "apart" };
  if (first.some((node) => second.includes(node))) return { kind: "same" };
  for (const from of first.slice(0, 64)) {
    for (const to of second.slice(0, 64)) {
      const cut = firstBlocked(harness.index, { narrow, wider }, { from, to });
      if (cut.kind !== "blocked") continue;
      const edge = cut.what === "edge" ? harness.edges[cut.number] : undefined;
      if (edge) return { kind: "element", at: edgeItem(edge) };
      const node = harness.nodes[cut.number];
      if (node)
        return { kind: "rail", at: nodeItem(node), rail: railNodes(harness).ground[cut.number] ? "ground" : "supply" };
    }
  }
  return { kind: "apart" };
}
