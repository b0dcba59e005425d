import type { XY } from "../xy.ts";
import type { DiagramModel } from "./diagram-model.ts";
import { drawMark } from "./sketch-mark.ts";
import { rowWidth, SIZE, wordRow, writeRows, type Written } from "./sketch.ts";
import type { SketchContext } from "./sketch-thing.ts";
import { drawTag } from "./sketch-wire.ts";
import { moveRect, moveShape, type ShapeGroup } from "./shapes.ts";
import { ROLE_WORDS, wireRole, type WireRole } from "./wire-roles.ts";

const ROLES: readonly WireRole[] = ["supply", "ground", "signal", "control", "data"];
const WORDS: Readonly<Record<WireRole, string>> = {
  ...{ supply: "supply side", ground: "ground side", signal: "signal", control: "control", data: "data" },
};

/**
 * The lines below a diagram: what the tags mean that are in it, and how it is drawn.
 *
 * @param at Upper left corner.
 */
export function drawLegend(context: SketchContext, model: DiagramModel, at: XY): readonly ShapeGroup[] {
  const used = context.style.roleWords ? [] : rolesIn(context, model);
  const parts: Written[] = [];
  let x = at.x;
  const put = (mark: Written, width: number, text: string): void => {
    const row = wordRow(text, true);
    parts.push(mark, writeRows([row], x + width + 6, at.y));
    x += width + 6 + rowWidth(row) + 22;
  };
  for (const role of used) put(drawTag(role, x, at.y + 1.5), 13, WORDS[role]);
  if ([...context.style.marks.values()].some(({ permitted }) => permitted)) {
    const pill = drawMark({ text: "", permitted: true }, 0, 0);
    const left = Math.min(...pill.blocks.map(({ x0 }) => x0));
    const by = { x: x - left, y: at.y - 1 };
    const moved = {
      shapes: pill.shapes.map((each) => moveShape(each, by)),
      blocks: pill.blocks.map((each) => moveRect(each, by)),
    };
    put(moved, -left, "a meter may be put here");
  }
  const y = parts.length > 0 ? at.y + SIZE.row + 6 : at.y;
  const notes = ["Switches and contacts are drawn at rest. Colour codes: IEC 60757."];
  const words = writeRows(notes.map((text) => wordRow(text, false)), at.x, y); // prettier-ignore
  const all = [...parts, words];
  return [
    {
      ...{ kind: "note", item: undefined, title: "", strong: false },
      shapes: all.flatMap(({ shapes }) => shapes),
      blocks: all.flatMap(({ blocks }) => blocks),
    },
  ];
}

function rolesIn({ scope }: SketchContext, { columns }: DiagramModel): readonly WireRole[] {
  const found = new Set(
    columns.flatMap(({ lines }) =>
      lines.flatMap(({ wire, edge }) => (wire && edge !== undefined ? (wireRole(scope, edge, wire) ?? []) : [])),
    ),
  );
  return ROLES.filter((role) => found.has(role) && ROLE_WORDS[role].tag !== "");
}
