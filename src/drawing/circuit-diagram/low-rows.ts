import type { ColumnPlan } from "./column-rows.ts";
import type { DiagramModel } from "./diagram-model.ts";

/**
 * The rows that go as low as they can: the ground, joints that lead to nothing but the ground, boxes with upper pins only, and what stands
 * between two of these.
 *
 * @returns How far each reaches below its height, by row.
 */
export function lowRows(model: DiagramModel, plan: ColumnPlan): ReadonlyMap<number, number> {
  const isLow = new Map<number, boolean>();
  const find = (at: number): boolean => {
    const known = isLow.get(at);
    if (known !== undefined) return known;
    isLow.set(at, false);
    const wide = model.wides[at];
    const thing = model.graph.things[wide?.thing ?? -1];
    const isEnd =
      wide?.below.length === 0 && (thing?.kind === "box" || (thing?.kind === "joint" && thing.look === "ground"));
    const leads =
      wide?.below.length !== 0 &&
      thing?.kind === "joint" &&
      wide?.below.every((column) => leadsToGround(model, column, find));
    const low = isEnd || leads === true;
    isLow.set(at, low);
    return low;
  };
  const low = new Map<number, number>();
  const add = (row: number): void => {
    low.set(row, plan.reach[row] ?? 0);
  };
  model.wides.forEach((_, at) => {
    if (find(at)) add(at);
  });
  model.columns.forEach((column, at) => {
    if (isLow.get(column.upper) === true && isLow.get(column.lower) === true) plan.rows[at]?.forEach(add);
  });
  return low;
}

function leadsToGround(model: DiagramModel, column: number, find: (wide: number) => boolean): boolean {
  const lower = model.columns[column]?.lower ?? -1;
  const thing = model.graph.things[model.wides[lower]?.thing ?? -1];
  return thing?.kind === "joint" && find(lower);
}
