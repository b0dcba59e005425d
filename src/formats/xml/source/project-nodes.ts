import type { SourceNode } from "./harness-source.ts";

/** A place on the drawing: x to the right, y down. */
export interface DrawnPlace {
  readonly x: number;
  readonly y: number;
}

/** Width of the drawing in drawing units. */
const WIDTH = 1200;

/**
 * Lays nodes on the drawing: of the axes of the file the one along which they spread least is dropped, the one along which they spread
 * most becomes x, the other one y, upward in the file being upward on the drawing. All is scaled to one width.
 *
 * In a vehicle whose axes point to the rear, to the right and up, and which is flatter than it is wide, that is the view from above with
 * the front at the left.
 *
 * @param nodes Nodes, with two or three coordinates in any one unit.
 * @returns Places by the key of the node, rounded to one decimal; nodes without coordinates are left out.
 */
export function projectNodes(nodes: readonly SourceNode[]): ReadonlyMap<string, DrawnPlace> {
  const placed = nodes.filter((node) => (node.position?.length ?? 0) >= 2);
  const spreads = [0, 1, 2].map((axis) => spreadOf(placed, axis));
  const [first, second] = [0, 1, 2].sort((a, b) => (spreads[b]?.size ?? 0) - (spreads[a]?.size ?? 0));
  // The two that are kept stay in the order of the file where they spread alike.
  const across = first === undefined ? undefined : spreads[first];
  const down = second === undefined ? undefined : spreads[second];
  const drawn = new Map<string, DrawnPlace>();
  if (!across || !down) return drawn;
  const scale = across.size > 0 ? WIDTH / across.size : 1;
  for (const node of placed) {
    const x = ((node.position?.[across.axis] ?? 0) - across.least) * scale;
    const y = (down.most - (node.position?.[down.axis] ?? 0)) * scale;
    drawn.set(node.key, { x: Math.round(x * 10) / 10, y: Math.round(y * 10) / 10 });
  }
  return drawn;
}

interface Spread {
  readonly axis: number;
  readonly least: number;
  readonly most: number;
  readonly size: number;
}

function spreadOf(nodes: readonly SourceNode[], axis: number): Spread {
  let least = Infinity;
  let most = -Infinity;
  for (const node of nodes) {
    const value = node.position?.[axis] ?? 0;
    least = Math.min(least, value);
    most = Math.max(most, value);
  }
  return { axis, least, most, size: most >= least ? most - least : 0 };
}
