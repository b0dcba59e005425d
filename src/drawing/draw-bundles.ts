import type { Harness } from "../model/index.ts";
import { given } from "./given.ts";
import type { DrawnBundle, DrawnThing } from "./layout.ts";
import type { Spots } from "./spots.ts";

/** The bundles that hold fitted wires, each pointing away from the middle of the machine. */
export function drawBundles(
  harness: Harness,
  spots: Spots,
  things: ReadonlyMap<string, DrawnThing>,
): readonly DrawnBundle[] {
  const bundles: DrawnBundle[] = [];
  for (const { id, from, to, lengthMm, zone } of harness.document.segments) {
    const wires = spots.wiresIn.get(id);
    const a = spots.points.get(from);
    const b = spots.points.get(to);
    if (wires && a && b)
      bundles.push({ id, kind: "segment", ends: [from, to], from: a, to: b, lengthMm, ...given({ zone }), wires });
  }
  for (const { id, things: ends, wires, lengthMm } of spots.runs) {
    const a = things.get(ends[0]);
    const b = things.get(ends[1]);
    if (a && b)
      bundles.push({
        id,
        kind: "direct",
        ends,
        from: { x: a.x, y: a.y },
        to: { x: b.x, y: b.y },
        ...given({ lengthMm }),
        wires,
      });
  }
  return outwards(bundles);
}

/** Turns every bundle to point away from the spot where most bundles meet. */
function outwards(bundles: readonly DrawnBundle[]): readonly DrawnBundle[] {
  const at = new Map<string, DrawnBundle[]>();
  for (const bundle of bundles) for (const end of bundle.ends) at.set(end, [...(at.get(end) ?? []), bundle]);
  const depth = new Map<string, number>();
  const roots = [...at].sort(([, a], [, b]) => b.length - a.length).map(([spot]) => spot);
  for (const root of roots) {
    if (depth.has(root)) continue;
    depth.set(root, 0);
    const order = [root];
    for (const spot of order) {
      for (const end of (at.get(spot) ?? []).flatMap((bundle) => bundle.ends)) {
        if (depth.has(end)) continue;
        depth.set(end, (depth.get(spot) ?? 0) + 1);
        order.push(end);
      }
    }
  }
  return bundles.map((bundle) => {
    const [first, second] = bundle.ends;
    const isOutwards = (depth.get(first) ?? 0) <= (depth.get(second) ?? 0);
    return isOutwards ? bundle : { ...bundle, ends: [second, first], from: bundle.to, to: bundle.from };
  });
}
