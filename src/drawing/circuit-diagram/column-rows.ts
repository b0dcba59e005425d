import type { ChainStop } from "./arrange-rows.ts";
import type { DiagramModel } from "./diagram-model.ts";
import type { Entry } from "./plan-columns.ts";
import { RowSystem } from "./row-system.ts";
import { distance, type RowItem, type RowStrip } from "./settle-rows.ts";
import type { SketchContext } from "./sketch-thing.ts";
import { sketchWide, type WideSketch } from "./sketch-wide.ts";
import { moveRect, type Rect } from "./shapes.ts";

/** Whose an item is. */
export type ItemOwner =
  | { readonly kind: "wide"; readonly wide: number }
  | { readonly kind: "entry"; readonly column: number; readonly entry: number };

/** Everything that has a height, with the rules that follow from the columns alone. */
export interface ColumnPlan {
  readonly system: RowSystem;
  readonly items: readonly RowItem[];
  /** Whose each item is; links have none. */
  readonly owners: readonly ItemOwner[];
  readonly strips: readonly RowStrip[];
  readonly chains: readonly (readonly ChainStop[])[];
  readonly wides: readonly WideSketch[];
  /** Row of each entry of each column. The row of a wide thing is its own number. */
  readonly rows: readonly (readonly number[])[];
  /** How far each row reaches below its height. */
  readonly reach: readonly number[];
}

/** Least length of a wire and of a line inside a part, in px. */
const LEAST = { wire: 38, closeWire: 26, line: 9 } as const;

/**
 * Lists everything that has a height in a diagram whose columns have their places.
 *
 * @param placed What stands in each column, and where each column stands.
 */
export function columnPlan(
  context: SketchContext,
  model: DiagramModel,
  placed: { readonly plans: readonly (readonly Entry[])[]; readonly xs: readonly number[] },
): ColumnPlan {
  const { plans, xs } = placed;
  const wides = model.wides.map((wide) => sketchWide(context, model, wide, (column) => xs[column] ?? 0));
  const { rows, count } = numberRows(model, plans);
  const items: RowItem[] = [];
  const owners: ItemOwner[] = [];
  wides.forEach(({ blocks, bar }, wide) => {
    items.push({ row: wide, blocks, bars: bar ? [bar] : [] });
    owners.push({ kind: "wide", wide });
  });
  const entryItems = plans.map((entries, column) =>
    entries.map(({ sketch }, entry) => {
      const by = { x: xs[column] ?? 0, y: 0 };
      const item: RowItem = {
        row: rows[column]?.[entry] ?? 0,
        blocks: sketch.blocks.map((block) => moveRect(block, by)),
        bars: [],
      };
      items.push(item);
      owners.push({ kind: "entry", column, entry });
      return item;
    }),
  );
  items.push(...linkItems(model, plans, { rows, xs }));
  const system = new RowSystem(count);
  const parts = { plans, entryItems, items, wides, system, isClose: context.style.close };
  const chains = model.columns.map((_, column) => chainOf(model, column, parts));
  const strips = model.columns.map((column, at): RowStrip => {
    const own = [items[column.upper], items[column.lower], ...(entryItems[at] ?? [])];
    return {
      x: xs[at] ?? 0,
      upper: column.upper,
      lower: column.lower,
      own: new Set(own.flatMap((item) => item ?? [])),
    };
  });
  const reach = new Array<number>(count).fill(0);
  for (const { row, blocks } of items) for (const { y1 } of blocks) reach[row] = Math.max(reach[row] ?? 0, y1);
  return { system, items, owners, strips, chains, wides, rows, reach };
}

/** Wide things have the first rows; a coil and its contact have one row together. */
function numberRows(
  model: DiagramModel,
  plans: readonly (readonly Entry[])[],
): { readonly rows: readonly (readonly number[])[]; readonly count: number } {
  const same = new Map(model.levels);
  const shared = new Map<number, number>();
  let count = model.wides.length;
  const rows = plans.map((entries) =>
    entries.map(({ thing }) => {
      const key = thing === undefined ? undefined : (same.get(thing) ?? thing);
      const known = key === undefined ? undefined : shared.get(key);
      if (known !== undefined) return known;
      if (key !== undefined) shared.set(key, count);
      return count++;
    }),
  );
  return { rows, count };
}

/** The dashed lines between coils and contacts: nothing but wires may cross them. */
function linkItems(
  model: DiagramModel,
  plans: readonly (readonly Entry[])[],
  { rows, xs }: { readonly rows: readonly (readonly number[])[]; readonly xs: readonly number[] },
): readonly RowItem[] {
  const placeOf = (thing: number): { readonly x: number; readonly row: number } | undefined => {
    for (const [column, entries] of plans.entries()) {
      const entry = entries.findIndex((each) => each.thing === thing);
      if (entry >= 0) return { x: xs[column] ?? 0, row: rows[column]?.[entry] ?? 0 };
    }
    return undefined;
  };
  return model.links.flatMap(({ contact, coil }) => {
    const [a, b] = [placeOf(contact), placeOf(coil)];
    if (!a || !b) return [];
    const bar: Rect = { x0: Math.min(a.x, b.x), y0: -2, x1: Math.max(a.x, b.x), y1: 2 };
    return [{ row: a.row, blocks: [], bars: [bar] }];
  });
}

interface ChainParts {
  readonly plans: readonly (readonly Entry[])[];
  readonly entryItems: readonly (readonly RowItem[])[];
  readonly items: readonly RowItem[];
  readonly wides: readonly WideSketch[];
  readonly system: RowSystem;
  readonly isClose: boolean;
}

/** A thing of a chain while its rules are made. */
interface Link {
  readonly item: RowItem;
  readonly top: number;
  readonly bottom: number;
  readonly isFixed: boolean;
}

/** Adds the rules of one column and tells its stops from above to below. */
function chainOf(model: DiagramModel, at: number, parts: ChainParts): readonly ChainStop[] {
  const column = model.columns[at];
  const linked = new Set(model.levels.flat());
  const endOf = (wide: number): Link | undefined => {
    const item = parts.items[wide];
    return item && { item, top: parts.wides[wide]?.top ?? 0, bottom: parts.wides[wide]?.bottom ?? 0, isFixed: true };
  };
  const links: Link[] = [];
  const labels = new Map<number, { readonly item: RowItem; readonly middle: number; readonly half: number }>();
  const upper = endOf(column?.upper ?? -1);
  if (upper) links.push(upper);
  (parts.plans[at] ?? []).forEach(({ thing, sketch }, entry) => {
    const item = parts.entryItems[at]?.[entry];
    if (!item) return;
    if (thing !== undefined) {
      links.push({ item, top: sketch.top, bottom: sketch.bottom, isFixed: linked.has(thing) });
      return;
    }
    const [y0, y1] = [Math.min(...item.blocks.map((each) => each.y0)), Math.max(...item.blocks.map((each) => each.y1))];
    labels.set(links.length, { item, middle: (y0 + y1) / 2, half: (y1 - y0) / 2 });
  });
  const lower = endOf(column?.lower ?? -1);
  if (lower) links.push(lower);
  const { system } = parts;
  return links.map((link, place): ChainStop => {
    const above = links[place - 1];
    const label = labels.get(place);
    if (!above) return { row: link.item.row, least: 0, label: undefined, isFixed: true };
    const line = label ? (parts.isClose ? LEAST.closeWire : LEAST.wire) : LEAST.line;
    const least = Math.max(distance(above.item, link.item), above.bottom - link.top + line);
    system.add(above.item.row, link.item.row, least);
    const stop = { row: link.item.row, isFixed: link.isFixed };
    if (!label) return { ...stop, least, label: undefined };
    const rim = label.half + 2;
    const down = Math.max(distance(above.item, label.item), above.bottom + rim - label.middle);
    const up = Math.max(distance(label.item, link.item), label.middle + rim - link.top);
    system.add(above.item.row, label.item.row, down);
    system.add(label.item.row, link.item.row, up);
    const wire = { row: label.item.row, from: above.bottom, to: link.top, middle: label.middle };
    return { ...stop, least: Math.max(least, down + up), label: wire };
  });
}
