import type { DiagramLink, DiagramModel } from "./diagram-model.ts";
import { RowSystem } from "./row-system.ts";

/** Two things that stand at one height. */
export type Level = readonly [number, number];

/**
 * The links whose coil and contact can stand at one height: those that make no circle of the order from above to below. The others are
 * told by name at the contact. Pins next to a level coil and contact are level too, so that one outline goes round both.
 *
 * @returns The links, and all pairs of things at one height.
 */
export function levelLinks(model: DiagramModel): {
  readonly links: readonly DiagramLink[];
  readonly levels: readonly Level[];
} {
  const links: DiagramLink[] = [];
  const levels: Level[] = [];
  for (const link of model.links) {
    const pair: Level = [link.contact, link.coil];
    if (!isAcyclic(model, [...levels, pair])) continue;
    links.push(link);
    levels.push(pair);
    for (const step of [-1, 1]) {
      const pins: Level = [besides(model, link.contact, step), besides(model, link.coil, step)];
      const isFree = pins.every((pin) => pin >= 0 && levels.every((level) => !level.includes(pin)));
      if (isFree && isAcyclic(model, [...levels, pins])) levels.push(pins);
    }
  }
  for (const pins of pinRows(model, new Set(links.flatMap(({ contact, coil }) => [contact, coil])))) {
    const [first, ...others] = pins.filter((pin) => levels.every((level) => !level.includes(pin)));
    for (const other of others) {
      const pair: Level = [other, first ?? other];
      if (isAcyclic(model, [...levels, pair])) levels.push(pair);
    }
  }
  return { links, levels };
}

/** Pins that the columns of one inner joint come to first, on the same side of it. A dashed link on the way gives a pin its own height. */
function pinRows({ wides, columns, graph }: DiagramModel, linked: ReadonlySet<number>): readonly (readonly number[])[] {
  const firstPin = (column: number, isBelow: boolean): readonly number[] => {
    const { things = [], lines = [] } = columns[column] ?? {};
    const [way, steps] = isBelow ? [things, lines] : [things.toReversed(), lines.toReversed()];
    for (const [at, thing] of way.entries()) {
      if (steps[at]?.wire || linked.has(thing)) return [];
      if (graph.things[thing]?.kind === "pin") return [thing];
    }
    return [];
  };
  return wides.flatMap(({ thing, above, below }) => {
    const joint = graph.things[thing];
    if (joint?.kind !== "joint" || joint.look !== "inner") return [];
    return [below.flatMap((column) => firstPin(column, true)), above.flatMap((column) => firstPin(column, false))];
  });
}

/** The pin next to a thing in its column, above or below it; -1 where none is. */
function besides({ columns, graph }: DiagramModel, thing: number, step: number): number {
  const things = columns.find((column) => column.things.includes(thing))?.things ?? [];
  const found = things[things.indexOf(thing) + step] ?? -1;
  return graph.things[found]?.kind === "pin" ? found : -1;
}

function isAcyclic({ graph, columns, wides }: DiagramModel, levels: readonly Level[]): boolean {
  const count = graph.things.length;
  const same = new Map(levels);
  const rowOf = (thing: number): number => same.get(thing) ?? thing;
  const system = new RowSystem(count + wides.length);
  for (const { upper, lower, things } of columns) {
    const rows = [count + upper, ...things.map(rowOf), count + lower];
    if (new Set(rows).size < rows.length) return false;
    rows.slice(1).forEach((row, at) => system.add(rows[at] ?? 0, row, 1));
  }
  return system.order() !== undefined;
}
