import type { DiagramModel, WideThing } from "./diagram-model.ts";

/**
 * Draws boxes in pieces, one for each of their columns and all with the same name: what is left where a column would run through a box.
 *
 * @param isSplit Says which wide things are drawn in pieces, by position; bars never are.
 */
export function splitBoxes(model: DiagramModel, isSplit: (wide: number) => boolean): DiagramModel {
  const wides = model.wides.map(({ thing, height, above, below }) => ({
    ...{ thing, height, above: [...above], below: [...below] },
  }));
  const columns = model.columns.map((column) => ({ ...column }));
  model.wides.forEach((wide, at) => {
    if (model.graph.things[wide.thing]?.kind !== "box" || !isSplit(at)) return;
    const pieces = [...wide.above.map((column) => ({ column, isAbove: true })), ...wide.below.map((column) => ({ column, isAbove: false }))]; // prettier-ignore
    pieces.forEach(({ column, isAbove }, piece) => {
      const own: WideThing = { ...wide, above: isAbove ? [column] : [], below: isAbove ? [] : [column] };
      const number = piece === 0 ? at : wides.length;
      wides[number] = { ...own, above: [...own.above], below: [...own.below] };
      const target = columns[column];
      if (target && isAbove) columns[column] = { ...target, lower: number };
      else if (target) columns[column] = { ...target, upper: number };
    });
  });
  return { ...model, wides, columns };
}
