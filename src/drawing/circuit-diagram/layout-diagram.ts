import { arrangeRows, type ChainStop } from "./arrange-rows.ts";
import { columnPlan, type ColumnPlan } from "./column-rows.ts";
import type { DiagramModel } from "./diagram-model.ts";
import { levelLinks } from "./level-links.ts";
import { placeColumns } from "./place-columns.ts";
import { planColumn, type Entry } from "./plan-columns.ts";
import { searchSlots, type SlotQuestion } from "./search-slots.ts";
import { settleRows, type RowFault } from "./settle-rows.ts";
import type { SketchContext } from "./sketch-thing.ts";
import type { WideSketch } from "./sketch-wide.ts";
import { splitBoxes } from "./split-boxes.ts";
import { lowRows } from "./low-rows.ts";

/** A diagram with a place for everything, in px; nothing of it is moved to a corner yet. */
export interface DiagramLayout {
  readonly model: DiagramModel;
  /** The slot of each column: columns of one slot stand on one line. */
  readonly slots: readonly number[];
  /** What stands in each column. */
  readonly plans: readonly (readonly Entry[])[];
  /** Where each column stands. */
  readonly xs: readonly number[];
  readonly wides: readonly { readonly sketch: WideSketch; readonly y: number }[];
  /** Height of each entry of each column. */
  readonly ys: readonly (readonly number[])[];
}

/** How often a layout is tried again after something could not be kept apart, before every column gets a line of its own. */
const MOST_TRIES = 24;
/** How often slots are looked for again with the heights that came out. */
const ROUNDS = 2;

/**
 * Places everything: which columns share a line, how far apart the lines are, and all heights.
 *
 * @param context What the sketches need.
 * @param given The model of the diagram.
 * @param from Slots of an earlier layout to start from.
 */
export function layoutDiagram(context: SketchContext, given: DiagramModel, from?: readonly number[]): DiagramLayout {
  let model: DiagramModel = { ...given, ...levelLinks(given) };
  const apart = new Set<string>();
  let start = from;
  let round = 0;
  let known: SlotQuestion["wides"] | undefined;
  for (let tries = 0; ; tries++) {
    const plans = model.columns.map((column) => planColumn(context, model, column));
    const isLast = tries >= MOST_TRIES;
    if (isLast) model = splitBoxes(model, () => true);
    known ??= heightsOnOneLine(context, model, plans);
    const slots = isLast
      ? model.columns.map((_, at) => at)
      : searchSlots({ ...question(model, known), apart, ...(start && { start }) });
    const done = tryLayout(context, model, { plans, slots });
    if (isLast) return done.layout;
    if (done.faults.length === 0) {
      const isSame = start !== undefined && slots.every((slot, at) => slot === start?.[at]);
      if (round >= ROUNDS || isSame) return done.layout;
      round++;
      start = slots;
      known = widesOf(model, done.layout);
      continue;
    }
    model = react(model, done, apart);
    known = undefined;
    start = undefined;
  }
}

/** What a failed layout teaches: columns that must not share a line, boxes that have to be drawn in pieces. */
function react(model: DiagramModel, done: Tried, apart: Set<string>): DiagramModel {
  const split = new Set<number>();
  const keepApart = (a: number, b: number): void => {
    apart.add(`${Math.min(a, b)},${Math.max(a, b)}`);
  };
  for (const fault of done.faults) {
    if (fault.kind === "strips-meet") keepApart(fault.a, fault.b);
    else {
      const owner = done.plan.owners[fault.item];
      if (owner?.kind === "entry") keepApart(owner.column, fault.strip);
      else if (owner) {
        const wide = model.wides[owner.wide];
        const isBox = model.graph.things[wide?.thing ?? -1]?.kind === "box";
        if (isBox && wide && new Set([...wide.above, ...wide.below]).size > 1) split.add(owner.wide);
        for (const column of [...(wide?.above ?? []), ...(wide?.below ?? [])])
          if (done.layout.xs[column] === done.layout.xs[fault.strip]) keepApart(column, fault.strip);
      }
    }
  }
  return split.size > 0 ? splitBoxes(model, (at) => split.has(at)) : model;
}

function question(model: DiagramModel, wides: SlotQuestion["wides"]): Omit<SlotQuestion, "apart" | "start"> {
  const columnOf = (thing: number): number => model.columns.findIndex(({ things }) => things.includes(thing));
  const links = model.links.map(({ contact, coil }) => [columnOf(contact), columnOf(coil)] as const);
  return { wides, columns: model.columns, links: links.filter(([a, b]) => a >= 0 && b >= 0) };
}

/** Upper and lower edges of the wide things if every column stood by itself: where the search for slots begins. */
function heightsOnOneLine(
  context: SketchContext,
  model: DiagramModel,
  plans: readonly (readonly Entry[])[],
): SlotQuestion["wides"] {
  const plan = columnPlan(context, model, { plans, xs: model.columns.map((_, at) => at * 5000) });
  const heights = arrange(model, plan);
  return model.wides.map((wide, at) => spanOf(wide, plan.wides[at], heights[at] ?? 0));
}

function widesOf(model: DiagramModel, layout: DiagramLayout): SlotQuestion["wides"] {
  return model.wides.map((wide, at) => spanOf(wide, layout.wides[at]?.sketch, layout.wides[at]?.y ?? 0));
}

function spanOf(
  wide: DiagramModel["wides"][number],
  sketch: WideSketch | undefined,
  y: number,
): SlotQuestion["wides"][number] {
  const isBox = sketch !== undefined && sketch.bottom > sketch.top;
  const { top = 0, bottom = 0 } = sketch ?? {};
  return { isBox, y0: y + top, y1: y + bottom, above: wide.above, below: wide.below };
}

interface Tried {
  readonly layout: DiagramLayout;
  readonly faults: readonly RowFault[];
  readonly plan: ColumnPlan;
}

function arrange(model: DiagramModel, plan: ColumnPlan): readonly number[] {
  const chains: readonly (readonly ChainStop[])[] = plan.chains;
  return arrangeRows({ system: plan.system, chains, low: lowRows(model, plan), reach: plan.reach });
}

function tryLayout(
  context: SketchContext,
  model: DiagramModel,
  { plans, slots }: { readonly plans: readonly (readonly Entry[])[]; readonly slots: readonly number[] },
): Tried {
  const xs = placeColumns(context, model, { plans, slots });
  const plan = columnPlan(context, model, { plans, xs });
  const { system, items, strips } = plan;
  const { heights, faults } = settleRows({ system, items, strips, arrange: () => arrange(model, plan) });
  const wides = plan.wides.map((sketch, at) => ({ sketch, y: heights[at] ?? 0 }));
  const ys = plan.rows.map((rows) => rows.map((row) => heights[row] ?? 0));
  return { layout: { model, slots, plans, xs, wides, ys }, faults, plan };
}
