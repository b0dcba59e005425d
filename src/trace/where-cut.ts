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

/** Joined pairs of points looked at at most. */
const MOST_PAIRS = 4096;

/**
 * Says where the way between two things is cut.
 *
 * @param harness The harness.
 * @param ends The two things.
 * @param narrow The passage that found no path.
 */
export function whereCut(harness: Harness, ends: readonly [Resolved, Resolved], narrow: Passage): Cut {
  const { passage: wider, components } = waysThrough(harness, "everything");
  const [first, second] = ends.map((end) => end.groups.flat());
  if (!first || !second) return { kind: "apart" };
  if (first.some((node) => second.includes(node))) return { kind: "same" };
  let tried = 0;
  for (const from of first) {
    for (const to of second) {
      const part = components.ofNode[from] ?? -1;
      if (part < 0 || part !== components.ofNode[to] || ++tried > MOST_PAIRS) continue;
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
