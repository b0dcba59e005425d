import { naturalOrder } from "../../base/index.ts";
import type { DiagramGraph, Line, LineEnd, Thing } from "./diagram-graph.ts";

/** A chain of things between two wide ones, in no direction yet. */
export interface Chain {
  readonly key: string;
  readonly ends: readonly [LineEnd, LineEnd];
  readonly things: readonly number[];
  readonly lines: readonly Line[];
}

/** The wide things and the chains between them. */
export interface Chains {
  /** Positions of things that chains begin and end at. */
  readonly wide: readonly number[];
  readonly chains: readonly Chain[];
}

/**
 * Cuts a graph of a diagram into chains: the longest ways along things that have two lines each. Boxes, the supply, the ground, and all
 * that has one line or more than two are wide.
 */
export function findChains({ things, lines }: DiagramGraph): Chains {
  const linesOf = things.map((): Line[] => []);
  for (const line of lines) for (const end of line.ends) linesOf[end.thing]?.push(line);
  const isWide = things.map((thing, at) => linesOf[at]?.length !== 2 || isAlwaysWide(thing));
  const used = new Set<Line>();
  const chains: Chain[] = [];
  const walkFrom = (at: number): void => {
    for (const line of linesOf[at] ?? []) if (!used.has(line)) chains.push(walk(at, line, { linesOf, isWide, used }));
  };
  things.forEach((_, at) => {
    if (isWide[at]) walkFrom(at);
  });
  // What is left are rings without any wide thing: one of each is made wide.
  things.forEach((_, at) => {
    if (isWide[at] || (linesOf[at] ?? []).every((line) => used.has(line))) return;
    isWide[at] = true;
    walkFrom(at);
  });
  const wide = things.flatMap((_, at) => (isWide[at] && (linesOf[at]?.length ?? 0) > 0 ? [at] : []));
  return { wide, chains: chains.sort((a, b) => naturalOrder(a.key, b.key)) };
}

function isAlwaysWide(thing: Thing): boolean {
  return thing.kind === "box" || (thing.kind === "joint" && (thing.look === "supply" || thing.look === "ground"));
}

interface Walked {
  readonly linesOf: readonly (readonly Line[])[];
  readonly isWide: readonly boolean[];
  readonly used: Set<Line>;
}

function walk(from: number, first: Line, { linesOf, isWide, used }: Walked): Chain {
  const things: number[] = [];
  const lines: Line[] = [];
  const start = first.ends[0].thing === from ? first.ends[0] : first.ends[1];
  let line = first;
  let end = start;
  for (;;) {
    used.add(line);
    lines.push(line);
    end = line.ends[0] === end ? line.ends[1] : line.ends[0];
    if (isWide[end.thing]) break;
    things.push(end.thing);
    const here = line;
    const next = linesOf[end.thing]?.find((each) => each !== here);
    if (!next) break;
    line = next;
    end = next.ends[0].thing === end.thing ? next.ends[0] : next.ends[1];
  }
  const keys = lines.map(({ key }) => key).sort(naturalOrder);
  return { key: keys.join(" "), ends: [start, end], things, lines };
}
