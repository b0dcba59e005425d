import type { DiagramModel } from "./diagram-model.ts";
import type { Entry } from "./plan-columns.ts";
import { columnRoom, columnsOf, wideRoom } from "./sketch-wide.ts";
import type { SketchContext } from "./sketch-thing.ts";

/** Least distance between what belongs to two slots, in px. */
const SLOT_GAP = 18;

/**
 * Where each column stands: the running sum of the widths of the slots. A slot is as wide as all that its columns need to the left and to
 * the right of their line, so that nothing of two slots can meet.
 *
 * @param placed What stands in each column, and the slot of each.
 * @returns The place of each column in px.
 */
export function placeColumns(
  context: SketchContext,
  model: DiagramModel,
  placed: { readonly plans: readonly (readonly Entry[])[]; readonly slots: readonly number[] },
): readonly number[] {
  const { plans, slots } = placed;
  const count = Math.max(-1, ...slots) + 1;
  const left = new Array<number>(count).fill(0);
  const right = new Array<number>(count).fill(0);
  const need = (slot: number, room: { readonly left: number; readonly right: number }): void => {
    left[slot] = Math.max(left[slot] ?? 0, room.left);
    right[slot] = Math.max(right[slot] ?? 0, room.right);
  };
  model.columns.forEach((column, at) => {
    const slot = slots[at] ?? 0;
    const blocks = (plans[at] ?? []).flatMap(({ sketch }) => sketch.blocks);
    need(slot, {
      left: Math.max(8, ...blocks.map(({ x0 }) => -x0)),
      right: Math.max(8, ...blocks.map(({ x1 }) => x1)),
    });
    const [upper, lower] = [model.wides[column.upper], model.wides[column.lower]];
    if (upper) need(slot, columnRoom(context, model, { wide: upper, pin: column.upperPin }));
    if (lower) need(slot, columnRoom(context, model, { wide: lower, pin: column.lowerPin }));
  });
  const xs = (): readonly number[] => {
    let x = 0;
    return left.map((room, slot) => (x += room + (slot === 0 ? 0 : (right[slot - 1] ?? 0) + SLOT_GAP)));
  };
  // Twice: how much a box needs at its right depends on how far apart its pins are.
  for (const isLast of [false, true]) {
    const at = xs();
    for (const wide of model.wides) {
      const own = columnsOf(wide).map((column) => slots[column] ?? 0);
      const [low, high] = [Math.min(...own), Math.max(...own)];
      const room = wideRoom(context, model, wide, (at[high] ?? 0) - (at[low] ?? 0));
      need(low, { left: room.left, right: 0 });
      if (isLast || low === high) need(high, { left: 0, right: room.right });
    }
  }
  const at = xs();
  return slots.map((slot) => at[slot] ?? 0);
}
