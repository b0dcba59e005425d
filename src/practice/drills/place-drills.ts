import { naturalOrder } from "../../base/index.ts";
import type { Harness, Segment, Splice } from "../../model/index.ts";
import type { DrillMaker } from "./drill-maker.ts";

/** Where is this splice? */
export const spliceDrills: DrillMaker = {
  kind: "splice",
  starts: (harness) =>
    [...harness.fitted.splices.values()]
      .filter((splice) => splice.at !== undefined)
      .map((splice) => splice.id)
      .sort(naturalOrder),
  make: (harness, id) => {
    const splice = harness.fitted.splices.get(id);
    const segment = harness.segments.get(splice?.at?.segment ?? "");
    if (!splice?.at || !segment || harness.document.segments.length < 2) return undefined;
    const right = segmentsAt(harness, segment, splice);
    const { from, offsetMm } = splice.at;
    const others = [...harness.fitted.splices.values()].filter((each) => each.at?.segment === segment.id).length - 1;
    const label = splice.label === undefined ? "" : ` (${splice.label})`;
    return {
      question: `Where is splice ${id}${label}? Pick the segment it lies in.`,
      about: [{ type: "splice", id }],
      scene: { kind: "drawing", lit: [] },
      what: "segment",
      isMany: false,
      accepted: right.map((each) => [each]),
      pool: harness.document.segments
        .filter((each) => [each.from, each.to].some((place) => place === segment.from || place === segment.to))
        .map((each) => each.id),
      why: [
        `${id} lies in ${segment.id}, ${offsetMm} mm from ${from}.`,
        ...(right.length > 1 ? [`That is its end, so ${right.slice(1).join(", ")} are right too.`] : []),
      ],
      points: 2 + Math.min(4, others + right.length - 1),
    };
  },
};

/** The segment of a splice, and all that meet it there where it lies at an end. */
function segmentsAt(harness: Harness, segment: Segment, { at }: Splice): readonly string[] {
  if (!at) return [];
  const far = at.from === segment.from ? segment.to : segment.from;
  const place = at.offsetMm <= 0 ? at.from : at.offsetMm >= segment.lengthMm ? far : undefined;
  const touching = harness.document.segments.filter((each) => each.from === place || each.to === place);
  return [...new Set([segment.id, ...touching.map((each) => each.id).sort(naturalOrder)])];
}
