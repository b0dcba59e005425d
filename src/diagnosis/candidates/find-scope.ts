import { isBattery, type Harness } from "../../harness-model/index.ts";
import {
  circuitsOf,
  findCircuits,
  findNet,
  railNodes,
  resolve,
  resolveItem,
  type Circuit,
  type Resolved,
} from "../../connectivity/index.ts";
import { busMembers, feedsAlone } from "./module-lines.ts";

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
 * Finds the circuits that codes and bad functions are about, with everything that hangs on their nets. Where no supply or consumer is
 * known, a name stands for its nets: what conductors join can break, chafe and corrode all the same.
 *
 * @param names Codes, components, points: whatever was named as bad.
 * @returns The scope; empty if no name leads to a circuit or to a wire.
 */
export function findScope(harness: Harness, names: Iterable<string>): Scope {
  const named = [...names].map((name) => ({ name, circuits: circuitsNamed(harness, name) }));
  const unknown = named.filter(({ circuits }) => circuits.length === 0).map(({ name }) => name);
  const groups = [
    ...named.map(({ circuits }) => circuits),
    ...suppliesOfModules(
      harness,
      named.map(({ name }) => name),
    ),
  ];
  const part = partOf(groups.map((circuits) => withCoils(harness, circuits)));
  const { edges, nodes } = withBattery(harness, part);
  return { edges, nodes, ...beside(harness, { edges, nodes }), unknown };
}

/** A circuit ends at the posts; what lies behind them can be the fault of every circuit. */
function withBattery(
  harness: Harness,
  { edges, nodes }: Pick<Scope, "edges" | "nodes">,
): Pick<Scope, "edges" | "nodes"> {
  if (edges.size === 0) return { edges, nodes };
  const batteries = harness.edges.flatMap((edge, number) => (isBattery(edge) ? [number] : []));
  const { from, to } = harness.index;
  const posts = batteries.flatMap((number) => [from[number] ?? -1, to[number] ?? -1]).filter((node) => node >= 0);
  return { edges: new Set([...edges, ...batteries]), nodes: new Set([...nodes, ...posts]) };
}

/** Above so many edges only what a good part of the names share is kept: many things at once fail by what they have in common. */
const MOST_EDGES = 260;
const SHARED_BY = 0.3;

function partOf(groups: readonly ReadonlySet<Circuit>[]): {
  readonly edges: ReadonlySet<number>;
  readonly nodes: ReadonlySet<number>;
} {
  const edges = countMembers(groups, ({ edges: own }) => own);
  const nodes = countMembers(groups, ({ nodes: own }) => own);
  const least = edges.size > MOST_EDGES ? SHARED_BY * groups.length : 0;
  const keep = (counts: ReadonlyMap<number, number>): ReadonlySet<number> =>
    new Set([...counts].filter(([, count]) => count >= least).map(([number]) => number));
  return { edges: keep(edges), nodes: keep(nodes) };
}

function countMembers(
  groups: readonly ReadonlySet<Circuit>[],
  membersOf: (circuit: Circuit) => ReadonlySet<number>,
): ReadonlyMap<number, number> {
  const counts = new Map<number, number>();
  for (const group of groups) {
    const members = new Set([...group].flatMap((circuit) => [...membersOf(circuit)]));
    for (const member of members) counts.set(member, (counts.get(member) ?? 0) + 1);
  }
  return counts;
}

/**
 * Several codes of one module, or one of values that do not fit together, may come from how the module itself is fed; a code about a data bus
 * from how any module on it is.
 */
function suppliesOfModules(harness: Harness, names: readonly string[]): readonly (readonly Circuit[])[] {
  const codes = harness.document.codes.filter(({ id }) => names.includes(id));
  const onBus = codes.flatMap((code) => {
    const others = busMembers(harness, code).map(({ module }) => module);
    return others.length > 0 ? [...others, ...(code.module === undefined ? [] : [code.module])] : [];
  });
  const modules = codes.flatMap(({ module }) => module ?? []);
  const odd = codes.filter(({ failure }) => failure === "implausible").flatMap(({ module }) => module ?? []);
  const repeated = [...new Set(modules)].filter(
    (id) => odd.includes(id) || modules.filter((each) => each === id).length > 1,
  );
  return [...new Set([...repeated, ...onBus])].map((id) =>
    findCircuits(harness).all.filter(
      ({ component, sides }) => component === id && sides.some(({ role }) => role === "supply"),
    ),
  );
}

function circuitsNamed(harness: Harness, name: string): readonly Circuit[] {
  const resolution = resolve(harness, name);
  if (resolution.kind !== "one") return [];
  const { item } = resolution;
  const circuits = circuitsOf(harness, item);
  if (circuits.length === 0) return netNamed(harness, item);
  // A component stands for what it does, a point of a code for the circuits that end or begin there: shared lines belong to many more.
  const points = new Set(item.groups.flat());
  const own = circuits.filter(({ component, serves, sides }) =>
    item.type === "code"
      ? sides.some(({ terminal, ends }) => [terminal, ...ends].some((node) => points.has(node)))
      : component === item.id || serves.id === item.id,
  );
  return own.length > 0 ? feedsAlone(harness, item, [...own, ...feedsOfOutputs(harness, own)]) : circuits;
}

/** The nets of a thing in the place of its circuits; none where no wire or mated contact is joined to it. */
function netNamed(harness: Harness, item: Resolved): readonly Circuit[] {
  const net = findNet(harness, item);
  if (net.edges.length === 0) return [];
  const serves = { type: item.type, id: item.id };
  const parts = { nodes: new Set(net.nodes), edges: new Set(net.edges) };
  return [{ serves, component: undefined, ownEdges: [], sides: [], ...parts }];
}

/** What feeds the sensors among some circuits: an output that switches, as of a Hall sensor, is silent without its supply. */
function feedsOfOutputs(harness: Harness, circuits: readonly Circuit[]): readonly Circuit[] {
  return circuits.flatMap((output) => {
    const edge = harness.edges[harness.edgeNumbers.get(output.serves.id) ?? -1];
    if (edge?.kind !== "element" || edge.element.kind !== "driver" || edge.component.kind === "module") return [];
    const terminals = new Set(output.sides.map(({ terminal }) => terminal));
    const isFeed = ({ component, sides }: Circuit): boolean =>
      component === edge.component.id && sides.some(({ terminal }) => terminals.has(terminal));
    return findCircuits(harness).all.filter((other) => other !== output && isFeed(other));
  });
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
