import { addTo, naturalOrder } from "../../base/index.ts";
import { buildGraph } from "./build-graph.ts";
import { coilOf } from "./choose-circuits.ts";
import type { DiagramGraph, LineEnd } from "./diagram-graph.ts";
import type { DiagramColumn, DiagramLink, DiagramModel, WideThing } from "./diagram-model.ts";
import type { DiagramScope } from "./diagram-scope.ts";
import { findChains, type Chain, type Chains } from "./find-chains.ts";
import { boxPinHeight, jointHeight } from "./given-heights.ts";
import { solveHeights } from "./solve-heights.ts";

/** Where chains end: a joint, or one pin of a box. */
interface Terminal {
  readonly thing: number;
  readonly height: number;
  /** Place in the order from above to below. */
  readonly rank: number;
}

/** A chain that knows which of its ends is up. */
interface Hung {
  readonly chain: Chain;
  readonly upper: LineEnd;
  readonly lower: LineEnd;
}

/**
 * Makes the model of a diagram: finds bars, boxes and columns, and decides what is up and what is down.
 *
 * @param scope What is drawn.
 */
export function buildModel(scope: DiagramScope): DiagramModel {
  const graph = buildGraph(scope);
  const chains = findChains(graph);
  const terminals = rankTerminals(scope, graph, chains);
  const hung = chains.chains.map((chain) => hang(chain, terminals));
  const wides = new WideList(graph, hung, terminals);
  return { scope, graph, ...wides.list(), links: linksOf(scope, graph), levels: [] };
}

function terminalKey({ thing, pin }: LineEnd): string {
  return pin === undefined ? String(thing) : `${thing} ${pin}`;
}

function rankTerminals(
  scope: DiagramScope,
  graph: DiagramGraph,
  { wide, chains }: Chains,
): ReadonlyMap<string, Terminal> {
  const ends: LineEnd[] = [];
  const numbers = new Map<string, number>();
  const note = (end: LineEnd): void => {
    if (numbers.has(terminalKey(end))) return;
    numbers.set(terminalKey(end), ends.length);
    ends.push(end);
  };
  for (const thing of wide) if (graph.things[thing]?.kind !== "box") note({ thing });
  for (const chain of chains) chain.ends.forEach(note);
  const links = chains.map(({ ends: [a, b], lines }) => ({
    a: numbers.get(terminalKey(a)) ?? 0,
    b: numbers.get(terminalKey(b)) ?? 0,
    length: lines.length,
  }));
  const fixed = new Map<number, number>();
  ends.forEach((end, number) => {
    const height = givenHeight(scope, graph, end);
    if (height !== undefined) fixed.set(number, height);
  });
  const heights = solveHeights(ends.length, links, fixed).map((height) => Math.round(height * 1e9) / 1e9);
  const steps = stepsFromTop(heights, links);
  const nameOf = ({ thing, pin }: LineEnd): string => `${graph.things[thing]?.key ?? ""} ${pin ?? ""}`;
  const order = ends
    .map((end, number) => ({ end, number, height: heights[number] ?? 0.5, steps: steps[number] ?? 0 }))
    .sort((a, b) => b.height - a.height || a.steps - b.steps || naturalOrder(nameOf(a.end), nameOf(b.end)));
  return new Map(
    order.map(({ end, height }, rank): [string, Terminal] => [terminalKey(end), { thing: end.thing, height, rank }]),
  );
}

function givenHeight(scope: DiagramScope, graph: DiagramGraph, { thing: at, pin }: LineEnd): number | undefined {
  const thing = graph.things[at];
  if (thing?.kind === "joint") return jointHeight(scope, thing);
  if (thing?.kind !== "box") return undefined;
  const found = thing.pins.find((each) => each.key === pin);
  return found && boxPinHeight(scope, thing, found);
}

/** Steps from the highest points that each point is joined to; parts of equal height are ordered by it. */
function stepsFromTop(
  heights: readonly number[],
  links: readonly { readonly a: number; readonly b: number }[],
): readonly number[] {
  const near = heights.map((): number[] => []);
  for (const { a, b } of links) {
    near[a]?.push(b);
    near[b]?.push(a);
  }
  const steps = heights.map(() => -1);
  const byHeight = heights.map((_, at) => at).sort((a, b) => (heights[b] ?? 0) - (heights[a] ?? 0));
  const top = byHeight.filter((at) => heights[at] === heights[byHeight[0] ?? 0]);
  for (const start of [top, ...byHeight.map((at) => [at])]) {
    const queue = start.filter((at) => (steps[at] ?? 0) < 0);
    for (const at of queue) steps[at] = 0;
    for (const at of queue) {
      for (const next of near[at] ?? []) {
        if ((steps[next] ?? 0) >= 0) continue;
        steps[next] = (steps[at] ?? 0) + 1;
        queue.push(next);
      }
    }
  }
  return steps;
}

function hang(chain: Chain, terminals: ReadonlyMap<string, Terminal>): Hung {
  const [a, b] = chain.ends;
  const rank = (end: LineEnd): number => terminals.get(terminalKey(end))?.rank ?? 0;
  return rank(a) <= rank(b) ? { chain, upper: a, lower: b } : { chain, upper: b, lower: a };
}

/** Makes wide things and columns; what would be above and below itself is split in two. Not seen outside. */
class WideList {
  readonly #graph: DiagramGraph;
  readonly #hung: readonly Hung[];
  readonly #terminals: ReadonlyMap<string, Terminal>;
  readonly #split = new Set<number>();

  constructor(graph: DiagramGraph, hung: readonly Hung[], terminals: ReadonlyMap<string, Terminal>) {
    this.#graph = graph;
    this.#hung = hung;
    this.#terminals = terminals;
    for (const { upper, lower } of hung) if (upper.thing === lower.thing) this.#split.add(upper.thing);
  }

  list(): { readonly wides: readonly WideThing[]; readonly columns: readonly DiagramColumn[] } {
    for (;;) {
      const made = this.#make();
      const rest = cyclic(made.columns, made.wides.length);
      if (rest.length === 0) return made;
      const next = rest.find((at) => {
        const wide = made.wides[at];
        return wide && this.#graph.things[wide.thing]?.kind === "box" && !this.#split.has(wide.thing);
      });
      const thing = made.wides[next ?? -1]?.thing;
      if (thing === undefined) throw new RangeError("A circuit has no order from above to below");
      this.#split.add(thing);
    }
  }

  #make(): { wides: readonly WideThing[]; columns: readonly DiagramColumn[] } {
    const numbers = new Map<string, number>();
    const wides: { thing: number; height: number; above: number[]; below: number[] }[] = [];
    const wideOf = (end: LineEnd, side: "above" | "below"): number => {
      const key = this.#split.has(end.thing) ? `${end.thing} ${side}` : String(end.thing);
      const known = numbers.get(key);
      if (known !== undefined) return known;
      const height = this.#terminals.get(terminalKey(end))?.height ?? 0.5;
      numbers.set(key, wides.length);
      wides.push({ thing: end.thing, height, above: [], below: [] });
      return wides.length - 1;
    };
    const columns = this.#hung.map((each, at): DiagramColumn => {
      const upper = wideOf(each.upper, "below");
      const lower = wideOf(each.lower, "above");
      wides[upper]?.below.push(at);
      wides[lower]?.above.push(at);
      return columnOf(each, { upper, lower }, this.#graph);
    });
    return { wides, columns };
  }
}

function columnOf(
  { chain, upper, lower }: Hung,
  wide: { readonly upper: number; readonly lower: number },
  graph: DiagramGraph,
): DiagramColumn {
  const isTurned = chain.ends[0] !== upper;
  const strong =
    chain.lines.some((line) => line.wire && line.strong) ||
    chain.things.some((thing) => graph.things[thing]?.strong) ||
    chain.lines.every((line) => line.strong);
  return {
    ...{ key: chain.key, ...wide, upperPin: upper.pin, lowerPin: lower.pin, strong },
    things: isTurned ? chain.things.toReversed() : chain.things,
    lines: isTurned ? chain.lines.toReversed() : chain.lines,
  };
}

/** Wide things that lie on a circle, in the order of their numbers. */
function cyclic(columns: readonly DiagramColumn[], count: number): readonly number[] {
  const rest = new Set(Array.from({ length: count }, (_, at) => at));
  for (;;) {
    const held = new Set<number>();
    for (const { upper, lower } of columns) if (rest.has(upper) && rest.has(lower)) held.add(lower);
    const feeding = new Set<number>();
    for (const { upper, lower } of columns) if (rest.has(upper) && rest.has(lower)) feeding.add(upper);
    const free = [...rest].filter((at) => !held.has(at) || !feeding.has(at));
    if (free.length === 0) return [...rest];
    free.forEach((at) => rest.delete(at));
  }
}

function linksOf({ harness }: DiagramScope, graph: DiagramGraph): readonly DiagramLink[] {
  const coils = new Map<string, number>();
  const contacts = new Map<string, number[]>();
  graph.things.forEach((thing, at) => {
    if (thing.kind !== "part") return;
    if (thing.element.kind === "coil") coils.set(thing.item.id, at);
    const coil = coilOf(harness, thing.edge);
    if (coil) addTo(contacts, coil.id, at);
  });
  return [...contacts].flatMap(([id, moved]) => {
    const coil = coils.get(id);
    return coil === undefined ? [] : moved.map((contact) => ({ contact, coil }));
  });
}
