/** A segment as a route sees it. */
export interface RouteSegment {
  readonly from: string;
  readonly to: string;
}

/** A route laid from the first end of a wire to the second, or why it cannot be. */
export type LaidRoute =
  | { readonly kind: "laid"; readonly segments: readonly string[] }
  | { readonly kind: "broken"; readonly reason: string };

/**
 * Lays a route: the segments have to be a chain that touches both ends, and may be listed from either end.
 *
 * @param segments Keys of the segments as listed.
 * @param known Segments by key.
 * @param ends Keys of the nodes at which the first and the second end of the wire sit, where that is known.
 */
export function layRoute(
  segments: readonly string[],
  known: ReadonlyMap<string, RouteSegment>,
  ends: readonly [string | undefined, string | undefined],
): LaidRoute {
  const missing = segments.find((key) => !known.has(key));
  if (missing !== undefined) return { kind: "broken", reason: `segment "${missing.slice(0, 80)}" is not there` };
  if (walks(segments, known, ends)) return { kind: "laid", segments };
  const reversed = segments.toReversed();
  if (walks(reversed, known, ends)) return { kind: "laid", segments: reversed };
  const isChain = walks(segments, known, [undefined, undefined]);
  return {
    kind: "broken",
    reason: isChain ? "it does not join the two ends of the wire" : "its segments are no chain",
  };
}

/** Whether the segments lead from the first end to the second. With an unknown start both ends of the first segment are tried. */
function walks(
  segments: readonly string[],
  known: ReadonlyMap<string, RouteSegment>,
  [start, end]: readonly [string | undefined, string | undefined],
): boolean {
  const first = known.get(segments[0] ?? "");
  if (!first) return false;
  let standing = new Set(start === undefined ? [first.from, first.to] : [start]);
  for (const key of segments) {
    const segment = known.get(key);
    if (!segment) return false;
    const next = new Set<string>();
    if (standing.has(segment.from)) next.add(segment.to);
    if (standing.has(segment.to)) next.add(segment.from);
    if (next.size === 0) return false;
    standing = next;
  }
  return end === undefined || standing.has(end);
}
