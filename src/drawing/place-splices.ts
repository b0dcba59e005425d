import type { Harness } from "../model/index.ts";
import { given } from "./given.ts";
import { groupBy } from "./group-by.ts";
import type { DrawnThing } from "./layout.ts";
import type { Spots } from "./spots.ts";
import { along, distance } from "./xy.ts";

/** Least room between splices on one bundle, in drawing units. */
const SPLICE_GAP = 24;

/** Splices sit on their segment at their share of its length, pushed apart where they would cover each other. */
export function placeSplices(harness: Harness, spots: Spots): readonly DrawnThing[] {
  const located = [...harness.fitted.splices.values()].flatMap((splice) => {
    const segment = harness.segments.get(splice.at?.segment ?? "");
    if (!splice.at || !segment) return [];
    const share = Math.min(1, Math.max(0, splice.at.offsetMm / Math.max(1, segment.lengthMm)));
    return [{ splice, segment, share: splice.at.from === segment.from ? share : 1 - share }];
  });
  const onSegment = groupBy(located, ({ segment }) => segment);
  return [...onSegment].flatMap(([segment, group]) => {
    const from = spots.points.get(segment.from) ?? { x: 0, y: 0 };
    const to = spots.points.get(segment.to) ?? from;
    const gap = Math.min(SPLICE_GAP / Math.max(1, distance(from, to)), 0.9 / group.length);
    const sorted = group.toSorted((a, b) => a.share - b.share);
    const shares = pushApart(
      sorted.map(({ share }) => share),
      gap,
    );
    return sorted.map(({ splice }, at): DrawnThing => {
      const point = along(from, to, shares[at] ?? 0.5);
      const label = splice.label ?? splice.id;
      return { type: "splice", id: splice.id, label, sort: "splice", ...given({ zone: splice.zone }), ...point };
    });
  });
}

function pushApart(shares: readonly number[], gap: number): readonly number[] {
  const pushed: number[] = [];
  for (const share of shares) pushed.push(Math.max(share, gap / 2, (pushed.at(-1) ?? -1) + gap));
  let most = 1 - gap / 2;
  return pushed
    .toReversed()
    .map((share) => {
      const fitted = Math.min(share, most);
      most = fitted - gap;
      return fitted;
    })
    .reverse();
}
