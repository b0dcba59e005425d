import type { Harness } from "../../model/index.ts";
import { addMating, addWire } from "./add-conductors.ts";
import { PartDraft } from "./part-draft.ts";
import type { Surroundings } from "./surroundings.ts";

// Wires and contacts do not depend on the state of the machine, so its states share them. Only the last draft of a harness is kept.
const known = new WeakMap<Harness, { readonly key: string; readonly draft: PartDraft }>();

/** Wires and mated contacts of a machine in a situation, to be copied and gone on from. */
export function draftConductors(around: Surroundings): PartDraft {
  const { harness, temperatureC, unplugged, inLine } = around;
  const key = `${temperatureC}|${[...unplugged].toSorted().join(" ")}|${[...inLine].toSorted().join(" ")}`;
  const last = known.get(harness);
  if (last?.key === key) return last.draft;
  const draft = new PartDraft(harness.nodes.map((node) => node.key));
  harness.edges.forEach((edge, number) => {
    const from = harness.index.from[number] ?? 0;
    const to = harness.index.to[number] ?? 0;
    if (edge.kind === "wire") addWire(draft, around, { wire: edge.wire, from, to });
    else if (edge.kind === "mating") {
      const { connector, cavity } = edge;
      addMating(draft, around, { key: edge.key, connector, cavity, from, to });
    }
  });
  known.set(harness, { key, draft });
  return draft;
}
