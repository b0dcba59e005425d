import type { XY } from "../xy.ts";
import type { DiagramModel } from "./diagram-model.ts";
import { drawMark } from "./sketch-mark.ts";
import { joinWritten, rowWidth, SIZE, wordRow, wrapText, writeRows, type Row, type Written } from "./sketch.ts";
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
export function drawLegend(context: SketchContext, model: DiagramModel, at: XY): ShapeGroup {
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
  return noteOf(joinWritten(...all));
}

function noteOf(written: Written): ShapeGroup {
  return { kind: "note", item: undefined, title: "", strong: false, ...written };
}

/**
 * The lines above a diagram that stands by itself.
 *
 * @param lines The lines, the first one large.
 * @param at Upper left corner.
 */
export function drawHeading([first, ...more]: readonly string[], { x, y }: XY): ShapeGroup | undefined {
  if (first === undefined) return undefined;
  const large: Row = { text: first, face: "plain", size: SIZE.heading, tone: "accent" };
  const rows = more.map((text) => wordRow(text, true));
  return noteOf(joinWritten(writeRows([large], x, y), writeRows(rows, x, y + SIZE.row + 6)));
}

/** Most rows of one sentence below a diagram: none is cut short. */
const MOST_ROWS = 60;

/**
 * The sentences below a diagram that stands by itself.
 *
 * @param sentences The sentences.
 * @param at Upper left corner.
 * @param width Most width in px.
 */
export function drawFooting(sentences: readonly string[], { x, y }: XY, width: number): ShapeGroup | undefined {
  if (sentences.length === 0) return undefined;
  const rows = sentences.flatMap((sentence) => wrapText(sentence, width, MOST_ROWS));
  return noteOf(writeRows(rows.map((text) => wordRow(text, true)), x, y)); // prettier-ignore
}

function rolesIn({ scope }: SketchContext, { columns }: DiagramModel): readonly WireRole[] {
  const found = new Set(
    columns.flatMap(({ lines }) =>
      lines.flatMap(({ wire, edge }) => (wire && edge !== undefined ? (wireRole(scope, edge, wire) ?? []) : [])),
    ),
  );
  return ROLES.filter((role) => found.has(role) && ROLE_WORDS[role].tag !== "");
}
