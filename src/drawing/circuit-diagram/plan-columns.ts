import type { Line, Thing } from "./diagram-graph.ts";
import { thingAt, type DiagramColumn, type DiagramModel } from "./diagram-model.ts";
import { sketchThing, type SketchContext, type ThingPlace } from "./sketch-thing.ts";
import { sketchWireLabel } from "./sketch-wire.ts";
import type { Sketch } from "./sketch.ts";
import { wireRole } from "./wire-roles.ts";

/** Something that has its own height in a column: a thing, or the label of a wire. */
export interface Entry {
  /** The thing; undefined for the label of a wire. */
  readonly thing: number | undefined;
  /** Of a label: its line. */
  readonly line: Line | undefined;
  readonly sketch: Sketch;
}

/** Sketches everything that stands in a column, from above to below. */
export function planColumn(context: SketchContext, model: DiagramModel, column: DiagramColumn): readonly Entry[] {
  const linked = new Set(model.links.flatMap(({ contact, coil }) => [contact, coil]));
  return column.lines.flatMap((line, at): Entry[] => {
    const before = column.things[at - 1];
    const entries: Entry[] = [];
    if (before !== undefined) {
      const above = column.lines[at - 1];
      const place: ThingPlace = {
        above: nodesOf(context, model, { line: above, other: column.things[at - 2] }),
        wireAbove: above?.wire !== undefined,
        wireBelow: line.wire !== undefined,
        isLinked: linked.has(before),
        outlineAbove: !isOnePart(model, before, column.things[at - 2] ?? upperThing(model, column)),
        outlineBelow: !isOnePart(model, before, column.things[at] ?? lowerThing(model, column)),
      };
      const thing = thingAt(model, before);
      if (thing.kind !== "box")
        entries.push({ thing: before, line: undefined, sketch: sketchThing(context, thing, place) });
    }
    const { wire, edge } = line;
    if (wire && edge !== undefined) {
      const role = wireRole(context.scope, edge, wire);
      const sketch = sketchWireLabel(wire, { role, strong: line.strong }, context.style);
      entries.push({ thing: undefined, line, sketch });
    }
    return entries;
  });
}

function upperThing({ wides }: DiagramModel, { upper }: DiagramColumn): number {
  return wides[upper]?.thing ?? -1;
}

function lowerThing({ wides }: DiagramModel, { lower }: DiagramColumn): number {
  return wides[lower]?.thing ?? -1;
}

/** Whether two things belong to one part, so that no outline runs between them. */
function isOnePart({ graph }: DiagramModel, a: number, b: number): boolean {
  const [first, second] = [partOf(graph.things[a]), partOf(graph.things[b])];
  return first !== undefined && first === second;
}

/**
 * The part in whose outline a thing stands or on whose outline it lies.
 *
 * @param thing The thing; a box has no outline.
 */
export function partOf(thing: Thing | undefined): string | undefined {
  if (thing?.kind === "part") return thing.component.id;
  if (thing?.kind === "pin") return thing.component;
  return thing?.kind === "joint" && thing.look !== "supply" ? thing.component : undefined;
}

/** Nodes at the end of a line: those of its edge, or of the thing at its other end. */
function nodesOf(
  { scope }: SketchContext,
  model: DiagramModel,
  { line, other }: { readonly line: Line | undefined; readonly other: number | undefined },
): readonly number[] {
  const { from, to } = scope.harness.index;
  if (line?.edge !== undefined) return [from[line.edge] ?? -1, to[line.edge] ?? -1];
  const thing = other === undefined ? undefined : model.graph.things[other];
  return thing?.kind === "joint" ? [thing.node] : [];
}
