import { importProblem } from "../../import-problem.ts";
import type { Assembly } from "./assembly.ts";
import { projectNodes } from "./project-nodes.ts";

/** Adds nodes as places of the drawing and the segments between them. A segment without a length cannot be kept. */
export function addTopology(assembly: Assembly): void {
  const { source, draft } = assembly;
  const drawn = projectNodes(source.nodes);
  for (const node of source.nodes) {
    source.account.keep(node.madeOf, "place");
    assembly.places.set(node.key, draft.addPlace({ id: node.name, ...drawn.get(node.key) }, node.at));
  }
  for (const segment of source.segments) {
    const from = assembly.places.get(segment.from);
    const to = assembly.places.get(segment.to);
    const { lengthMm, covering, clips } = segment;
    const reason = faultOf(from, to, lengthMm);
    if (from === undefined || to === undefined || lengthMm === undefined || reason !== undefined) {
      draft.report(
        importProblem("source-segment-left-out", segment.at, { segment: segment.name, reason: reason ?? "" }),
      );
      source.account.leaveOut(segment.madeOf, reason ?? "");
      continue;
    }
    source.account.keep(segment.madeOf, "segment");
    const more = { ...(covering === undefined ? {} : { covering }), ...(clips === undefined ? {} : { clips }) };
    assembly.segments.set(segment.key, draft.addSegment({ id: segment.name, from, to, lengthMm, ...more }, segment.at));
  }
}

/** Why a segment cannot be kept; undefined for one that can. */
function faultOf(from: string | undefined, to: string | undefined, lengthMm: number | undefined): string | undefined {
  if (from === undefined || to === undefined) return "one of its nodes is missing";
  if (from === to) return "it ends where it starts";
  if (lengthMm === undefined) return "its length is missing";
  return lengthMm > 0 ? undefined : `a length of ${lengthMm} mm is not possible`;
}
