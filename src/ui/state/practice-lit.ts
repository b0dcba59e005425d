import { highlight, litBundles, wireEnds } from "../../drawing/index.ts";
import type { Harness } from "../../model/index.ts";
import type { Drill, DrillGrade } from "../../practice/index.ts";
import type { Lit } from "../graph/harness-graph.ts";

/** What of the drawing lights up in a drill: what its question names, what was picked, and after the answer what is right. */
export function litOfDrill(
  harness: Harness,
  drill: Drill,
  { picked, grade }: { readonly picked: readonly string[]; readonly grade: DrillGrade | undefined },
): Lit | undefined {
  if (drill.scene.kind !== "drawing") return undefined;
  const shown = drill.scene.lit.map(({ id }) => id);
  const right = grade ? (drill.accepted[0] ?? []) : picked;
  const ends = drill.kind === "route" || drill.kind === "hazards" ? endsOf(harness, drill) : [];
  const start = drill.kind === "next-connector" ? drill.about.map(({ id }) => id) : [];
  const solved = grade ? drill.about.map(({ id }) => id) : [];
  return litIds(harness, [...shown, ...ends, ...start, ...solved, ...right]);
}

/** These things of the drawing, lit; nothing where none of them is drawn. */
function litIds(harness: Harness, ids: readonly string[]): Lit | undefined {
  const { wires, things, bundles } = highlight(harness, ids);
  if (wires.length + things.size + bundles.size === 0) return undefined;
  return { wires: litBundles(harness, wires).wires, things, bundles };
}

/** Where the wires a question names begin and end: that is told, the way between is asked for. */
function endsOf(harness: Harness, { about }: Drill): readonly string[] {
  return about.flatMap(({ type, id }) =>
    type === "wire" ? (wireEnds(harness, id) ?? []).map(({ node }) => node.key) : [],
  );
}
