import { ask, type Facts } from "../../application/index.ts";
import type { AppState } from "./app.svelte.ts";

/** The safest class of probe point at each contact, splice and stud of a path, by id; items with none are left out. */
export function probeMarks(app: AppState, path: readonly Facts[]): ReadonlyMap<string, string> {
  const marks = new Map<string, string>();
  const { machine, build, state } = app;
  if (!machine || build === undefined) return marks;
  for (const { type, id } of path) {
    if (type !== "contact" && type !== "stud" && type !== "splice") continue;
    const answer = ask(machine, { build, ...(state !== undefined && { state }) }, { kind: "test-points", item: id });
    // What needs no contact, or is done elsewhere on the same conductor, marks nothing here.
    const best =
      answer.kind === "test-points"
        ? answer.points.find((point) => point.class !== "P0" && point.relation === "itself")
        : undefined;
    if (best) marks.set(id, best.class);
  }
  return marks;
}
