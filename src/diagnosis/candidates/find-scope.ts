import type { Harness } from "../../model/index.ts";
import { circuitsOf, findNet, railNodes, resolve, resolveItem, type Circuit } from "../../trace/index.ts";

/** The part of the machine that a complaint is about. */
export interface Scope {
  /** Edges of the circuits concerned: whatever breaks here can be the fault. */
  readonly edges: ReadonlySet<number>;
  readonly nodes: ReadonlySet<number>;
  /** Edges and nodes that hang on the same nets beside the circuits: what is shorted there pulls the circuits down. */
  readonly besideEdges: ReadonlySet<number>;
  readonly besideNodes: ReadonlySet<number>;
  /** Names of the complaint that lead nowhere on this build. */
  readonly unknown: readonly string[];
}

/**
 * Finds the circuits that codes and bad functions are about, with everything that hangs on their nets.
 *
 * @param harness The harness.
 * @param names Codes, components, points: whatever was named as bad.
 * @returns The scope; empty if no name leads to a circuit.
 */
export function findScope(harness: Harness, names: Iterable<string>): Scope {
  const edges = new Set<number>();
  const nodes = new Set<number>();
  const unknown: string[] = [];
  for (const name of names) {
    const circuits = circuitsNamed(harness, name);
    if (circuits.length === 0) unknown.push(name);
    for (const circuit of withCoils(harness, circuits)) {
      circuit.edges.forEach((edge) => edges.add(edge));
      circuit.nodes.forEach((node) => nodes.add(node));
    }
  }
  return { edges, nodes, ...beside(harness, { edges, nodes }), unknown };
}

function circuitsNamed(harness: Harness, name: string): readonly Circuit[] {
  const resolution = resolve(harness, name);
  if (resolution.kind !== "one") return [];
  const circuits = circuitsOf(harness, resolution.item);
  // A point of a code lies on the nets of many circuits where supplies are shared; its own are those that end or begin there.
  if (resolution.item.type !== "code") return circuits;
  const points = new Set(resolution.item.groups.flat());
  const own = circuits.filter((circuit) =>
    circuit.sides.some(({ terminal, ends }) => [terminal, ...ends].some((node) => points.has(node))),
  );
  return own.length > 0 ? own : circuits;
}

/** The circuits with those of every coil that works one of their relay contacts, and so on. */
function withCoils(harness: Harness, circuits: readonly Circuit[]): ReadonlySet<Circuit> {
  const all = new Set<Circuit>();
  const waiting = [...circuits];
  for (let circuit = waiting.pop(); circuit; circuit = waiting.pop()) {
    if (all.has(circuit)) continue;
    all.add(circuit);
    for (const number of circuit.edges) {
      const edge = harness.edges[number];
      if (edge?.kind !== "element" || edge.element.kind !== "contact") continue;
      const coil = resolveItem(harness, { type: "element", id: `${edge.component.id}.${edge.element.of}` });
      const own = coil ? circuitsOf(harness, coil).filter(({ serves }) => serves.id === coil.id) : [];
      waiting.push(...own);
    }
  }
  return all;
}

function beside(
  harness: Harness,
  { edges, nodes }: Pick<Scope, "edges" | "nodes">,
): Pick<Scope, "besideEdges" | "besideNodes"> {
  const rails = railNodes(harness);
  const starts = [...nodes].filter((node) => !rails.supply[node] && !rails.ground[node]);
  const net = findNet(harness, { type: "net", id: "", groups: [starts], edges: [] });
  const besideNodes = new Set(net.nodes.filter((node) => !nodes.has(node)));
  const besideEdges = new Set(net.edges.filter((edge) => !edges.has(edge)));
  harness.edges.forEach((edge, number) => {
    if (edge.kind !== "element" || edges.has(number) || edge.component.kind === "module") return;
    const ends = [harness.index.from[number] ?? -1, harness.index.to[number] ?? -1];
    if (ends.some((end) => besideNodes.has(end))) besideEdges.add(number);
  });
  return { besideEdges, besideNodes };
}
