import { findCircuits, type Circuit } from "../../connectivity/index.ts";
import { mainTerminals, type Harness } from "../../harness-model/index.ts";

/** The part of the supply that many circuits share and that a diagram leaves out. */
export interface FeedCut {
  /** The stud that takes the place of the battery, as a node number. */
  readonly at: number;
  /** The battery terminal. */
  readonly from: number;
  readonly nodes: ReadonlySet<number>;
  readonly edges: ReadonlySet<number>;
}

/** Share of all fed circuits, and how many of them at least, that have to run through the stud. Judgement. */
const LEAST = { share: 0.4, circuits: 4, lines: 3 } as const;

/** What is drawn of a harness, as node and edge numbers. */
interface Drawn {
  readonly nodes: ReadonlySet<number>;
  readonly edges: ReadonlySet<number>;
  /** Edges that must not be left out. */
  readonly kept: ReadonlySet<number>;
}

/**
 * Finds the shared way from the battery that may be left out: down to the last stud that all that is drawn is fed through, if a good
 * part of all fed circuits of the harness runs through it too.
 *
 * @param drawn What would be drawn without a cut.
 * @returns The cut; undefined where there is nothing worth leaving out.
 */
export function cutFeed(harness: Harness, drawn: Drawn): FeedCut | undefined {
  const from = mainTerminals(harness).positive;
  if (from === undefined || !drawn.nodes.has(from)) return undefined;
  const fed = findCircuits(harness).all.filter((circuit) => circuit.sides.some(({ role }) => role === "supply"));
  let best: FeedCut | undefined;
  for (const at of drawn.nodes) {
    if (at === from || harness.nodes[at]?.kind !== "stud" || !isShared(at, fed)) continue;
    const cut = cutAt(harness, drawn, { at, from });
    if (cut && cut.edges.size >= LEAST.lines && cut.edges.size > (best?.edges.size ?? 0)) best = cut;
  }
  return best;
}

function isShared(node: number, fed: readonly Circuit[]): boolean {
  const sharing = fed.filter(({ sides }) => sides.some((side) => side.role === "supply" && side.nodes.has(node)));
  return sharing.length >= LEAST.circuits && sharing.length >= LEAST.share * fed.length;
}

/** What lies between the battery and the stud, if it is joined to the rest at the stud only and nothing of it has to be kept. */
function cutAt(
  harness: Harness,
  { edges, kept }: Drawn,
  { at, from }: { readonly at: number; readonly from: number },
): FeedCut | undefined {
  const { offsets, targets, arcEdges } = harness.index;
  const nodes = new Set([from]);
  const inside = new Set<number>();
  for (const node of nodes) {
    for (let arc = offsets[node] ?? 0; arc < (offsets[node + 1] ?? 0); arc++) {
      const edge = arcEdges[arc] ?? -1;
      const target = targets[arc] ?? -1;
      if (!edges.has(edge)) continue;
      if (kept.has(edge)) return undefined;
      inside.add(edge);
      if (target !== at) nodes.add(target);
    }
  }
  const isRest = inside.size < edges.size && [...nodes].every((node) => !isGround(harness, node));
  return isRest ? { at, from, nodes, edges: inside } : undefined;
}

function isGround(harness: Harness, node: number): boolean {
  return mainTerminals(harness).negative === node;
}
