import { highlight, litBundles, wireEnds } from "../../drawing/index.ts";
import type { Harness } from "../../harness-model/index.ts";
import type { Drill, DrillGrade } from "../../training/index.ts";
import type { Highlighted } from "../graph/harness-graph.ts";

/** What of the drawing lights up in a drill: what its question names, what was picked, and after the answer what is right. */
export function litOfDrill(
  harness: Harness,
  drill: Drill,
  { picked, grade }: { readonly picked: readonly string[]; readonly grade: DrillGrade | undefined },
): Highlighted | undefined {
  if (drill.context.kind !== "drawing") return undefined;
  const shown = drill.context.lit.map(({ id }) => id);
  const right = grade ? (drill.accepted[0] ?? []) : picked;
  const ends = drill.kind === "route" || drill.kind === "hazards" ? endsOf(harness, drill) : [];
  const start = drill.kind === "next-connector" ? drill.about.map(({ id }) => id) : [];
  const solved = grade ? drill.about.map(({ id }) => id) : [];
  return litIds(harness, [...shown, ...ends, ...start, ...solved, ...right]);
}

/** These items of the drawing, lit; nothing where none of them is drawn. */
function litIds(harness: Harness, ids: readonly string[]): Highlighted | undefined {
  const { wires, items, bundles } = highlight(harness, ids);
  if (wires.length + items.size + bundles.size === 0) return undefined;
  return { wires: litBundles(harness, wires).wires, items, bundles };
}

/** Where the wires a question names begin and end: that is told, the route between is asked for. */
function endsOf(harness: Harness, { about }: Drill): readonly string[] {
  return about.flatMap(({ type, id }) =>
    type === "wire" ? (wireEnds(harness, id) ?? []).map(({ node }) => node.key) : [],
  );
}
