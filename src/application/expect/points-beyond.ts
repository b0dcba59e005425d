import { findProbePoints, type ProbePoint } from "../../measurement-safety/index.ts";
import { elementRole, nodeItem, waysThrough, type Item } from "../../connectivity/index.ts";
import { forbiddenTexts } from "../cautions.ts";
import type { MachineContext } from "../machine-context.ts";
import type { LeadSetup } from "./lead-setup.ts";

/** Parts that are gone through at most, one after the other. */
const MOST_PARTS = 3;
/** A conductor with more points than this is a rail: what lies behind it belongs to other circuits. */
const MOST_POINTS = 80;
const MOST_FOUND = 2;

/** A permitted point on another conductor, with the parts between. */
export interface PointBeyond {
  readonly point: ProbePoint;
  readonly at: string;
  readonly through: readonly Item[];
}

/**
 * Looks for permitted points on other conductors, where a conductor has none of its own: those with the fewest parts between first.
 * What a meter reads there is another reading.
 *
 * @param context The machine in its build and state.
 * @param starts Nodes of the conductor without a permitted point.
 * @param leadSetup The meter, and the connectors that are unplugged.
 * @returns At most two points; none where the line must be left alone.
 */
export function pointsBeyond(
  context: MachineContext,
  starts: readonly number[],
  leadSetup: LeadSetup,
): readonly PointBeyond[] {
  const { harness, state } = context;
  if (!state || mustBeLeftAlone(context, starts)) return [];
  const seen = new Map<number, readonly Item[]>();
  const { opened } = leadSetup;
  let level = spread(context, { starts: new Map(starts.map((node) => [node, []])), seen, opened });
  for (let parts = 0; parts < MOST_PARTS && level.length > 0; parts++) {
    level = spread(context, { starts: acrossParts(context, level, seen), seen, opened });
    if (level.length === 0 || level.length > MOST_POINTS) return [];
    const { points } = findProbePoints(harness, { nodes: level }, state, { refusals: "none" });
    const found = points.flatMap((point): PointBeyond[] => {
      const { at, unplug, meters } = point;
      const node = at === undefined ? undefined : harness.nodeNumbers.get(at);
      const isFit = meters.includes(leadSetup.meter) && (unplug === undefined || leadSetup.opened.has(unplug));
      if (at === undefined || !isFit || (node !== undefined && mustBeLeftAlone(context, [node]))) return [];
      return [{ point, at, through: (node === undefined ? undefined : seen.get(node)) ?? [] }];
    });
    if (found.length > 0) return found.slice(0, MOST_FOUND);
  }
  return [];
}

interface Spreading {
  readonly starts: ReadonlyMap<number, readonly Item[]>;
  readonly seen: Map<number, readonly Item[]>;
  readonly opened: ReadonlySet<string>;
}

/** All nodes that conductors join to some, with the parts that lead there. */
function spread({ harness }: MachineContext, { starts, seen, opened }: Spreading): readonly number[] {
  const { offsets, targets, arcEdges } = harness.index;
  const { passage } = waysThrough(harness, "conductors");
  const met: number[] = [];
  for (const [start, through] of starts) {
    if (seen.has(start)) continue;
    seen.set(start, through);
    const own = [start];
    // The list grows while it is walked.
    for (const node of own) {
      for (let arc = offsets[node] ?? 0; arc < (offsets[node + 1] ?? 0); arc++) {
        const next = targets[arc] ?? -1;
        const number = arcEdges[arc] ?? -1;
        const edge = harness.edges[number];
        const isOpen = edge?.kind === "mating" && opened.has(edge.connector.id);
        if (!passage.edges[number] || isOpen || seen.has(next)) continue;
        seen.set(next, through);
        own.push(next);
      }
    }
    met.push(...own);
  }
  return met;
}

/** The far ends of the parts at some nodes. */
function acrossParts(
  { harness }: MachineContext,
  nodes: readonly number[],
  seen: ReadonlyMap<number, readonly Item[]>,
): ReadonlyMap<number, readonly Item[]> {
  const { offsets, targets, arcEdges } = harness.index;
  const far = new Map<number, readonly Item[]>();
  for (const node of nodes.length > MOST_POINTS ? [] : nodes) {
    for (let arc = offsets[node] ?? 0; arc < (offsets[node + 1] ?? 0); arc++) {
      const edge = harness.edges[arcEdges[arc] ?? -1];
      const next = targets[arc] ?? -1;
      if (edge?.kind !== "element" || elementRole(edge.element) === "end") continue;
      if (seen.has(next) || far.has(next)) continue;
      far.set(next, [...(seen.get(node) ?? []), { type: "element", id: `${edge.component.id}.${edge.element.id}` }]);
    }
  }
  return far;
}

function mustBeLeftAlone({ harness }: MachineContext, nodes: readonly number[]): boolean {
  const items = nodes.flatMap((number) => {
    const node = harness.nodes[number];
    return node ? [nodeItem(node)] : [];
  });
  return forbiddenTexts(harness, items).length > 0;
}
