import { endAddresses, lookUpPoint, type Point } from "../address-book.ts";
import { problem } from "../problem.ts";
import { BOUNDS, isWithin } from "../schema/bounds.ts";
import type { Segment, Wire } from "../schema/routing.ts";
import type { CheckContext } from "./check-context.ts";

/** Segments have a possible length, splices lie on their segment, and every given route runs unbroken from end to end. */
export function checkRouting(context: CheckContext): void {
  const { document, report } = context;
  const segments = new Map<string, Segment>(document.segments.map((segment) => [segment.id, segment]));
  document.segments.forEach((segment, at) => {
    if (segment.from === segment.to) {
      const place = { path: `segments[${at}]`, id: segment.id };
      report(problem("joins-itself", place, { id: segment.id, address: segment.from }));
    }
    if (!isWithin(BOUNDS.lengthMm, segment.lengthMm)) {
      const place = { path: `segments[${at}].lengthMm`, id: segment.id };
      report(
        problem("impossible-length", place, {
          value: segment.lengthMm,
          least: BOUNDS.lengthMm.least,
          most: BOUNDS.lengthMm.most,
        }),
      );
    }
  });
  checkSplices(context, segments);
  document.wires.forEach((wire, at) => {
    if (wire.route !== undefined && wire.route.length > 0) checkRoute(context, wire, { at, segments });
  });
}

/** Lengths of wires and segments are rounded apart from each other, so this much less is no contradiction. */
const ROUNDING_MM = 1;

type Segments = ReadonlyMap<string, Segment>;

function checkSplices({ document, report }: CheckContext, segments: Segments): void {
  document.splices.forEach((splice, at) => {
    if (!splice.at) return;
    const path = `splices[${at}].at`;
    const segment = segments.get(splice.at.segment);
    if (!segment) {
      report(
        problem(
          "unknown-reference",
          { path: `${path}.segment`, id: splice.id },
          { what: "segment", id: splice.at.segment },
        ),
      );
      return;
    }
    if (splice.at.from !== segment.from && splice.at.from !== segment.to) {
      const what = `end of segment "${segment.id}"`;
      report(problem("unknown-reference", { path: `${path}.from`, id: splice.id }, { what, id: splice.at.from }));
    }
    const { offsetMm } = splice.at;
    if (!(offsetMm >= 0 && offsetMm <= segment.lengthMm)) {
      const facts = { splice: splice.id, offsetMm, lengthMm: segment.lengthMm };
      report(problem("offset-outside-segment", { path: `${path}.offsetMm`, id: splice.id }, facts));
    }
  });
}

interface RouteFault {
  readonly segment: string;
  readonly reason: string;
}

function checkRoute({ book, report }: CheckContext, wire: Wire, given: { at: number; segments: Segments }): void {
  const [first, second] = endAddresses(wire).map((address) => lookUpPoint(book, address, { by: "wire" }));
  // A dangling end is reported as such; its route cannot be judged.
  if (!first || !second || first.kind === "none" || second.kind === "none") return;
  const fault = followRoute(wire, [first, second], given.segments);
  const place = { path: `wires[${given.at}].route`, id: wire.id };
  if (fault) {
    report(problem("route-broken", place, { wire: wire.id, ...fault }));
    return;
  }
  const routeMm = wholeSegmentsMm(wire, [first, second], given.segments);
  if (wire.lengthMm !== undefined && wire.lengthMm < routeMm - ROUNDING_MM) {
    report(problem("length-below-route", place, { wire: wire.id, lengthMm: wire.lengthMm, routeMm }));
  }
}

/** Walks the route from the first end; undefined if it arrives at the second. */
function followRoute(wire: Wire, ends: readonly [Point, Point], segments: Segments): RouteFault | undefined {
  let reached = endNodes(ends[0], segments);
  const route = wire.route ?? [];
  for (const [position, id] of route.entries()) {
    const segment = segments.get(id);
    if (!segment) return { segment: id, reason: "there is no such harness segment" };
    const startsInside = position === 0 && spliceSegment(ends[0]) === id;
    const endsInside = position === route.length - 1 && spliceSegment(ends[1]) === id;
    const entered = reached
      ? [segment.from, segment.to].filter((place) => reached?.has(place))
      : [segment.from, segment.to];
    if (entered.length === 0) return { segment: id, reason: "it does not start where the segment before it ends" };
    if (endsInside) return undefined;
    if (startsInside || entered.length === 2) reached = new Set([segment.from, segment.to]);
    else reached = new Set([entered[0] === segment.from ? segment.to : segment.from]);
  }
  const wanted = endNodes(ends[1], segments);
  const arrives = !wanted || [...wanted].some((place) => reached?.has(place));
  return arrives ? undefined : { segment: route.at(-1) ?? "", reason: "it does not reach the second end" };
}

/** Places at which a route may begin or end for a point; undefined where the document does not say where the point is. */
function endNodes(point: Point, segments: Segments): ReadonlySet<string> | undefined {
  if (point.kind === "splice") {
    const segment = point.splice.at && segments.get(point.splice.at.segment);
    return segment && new Set([segment.from, segment.to]);
  }
  const place = point.kind === "contact" ? point.connector.place : point.kind === "stud" ? point.stud.place : undefined;
  return place === undefined ? undefined : new Set([place]);
}

function spliceSegment(point: Point): string | undefined {
  return point.kind === "splice" ? point.splice.at?.segment : undefined;
}

/** Sum of the segments that are run through whole, in mm: those a splice lies on are left out. */
function wholeSegmentsMm(wire: Wire, ends: readonly [Point, Point], segments: Segments): number {
  const partly = new Set(ends.map(spliceSegment));
  let sum = 0;
  for (const id of wire.route ?? []) if (!partly.has(id)) sum += segments.get(id)?.lengthMm ?? 0;
  return sum;
}
