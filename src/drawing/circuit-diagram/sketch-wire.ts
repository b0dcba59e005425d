import type { Wire } from "../../harness-model/index.ts";
import type { SketchStyle } from "./diagram-options.ts";
import { shownId, wireFacts } from "./part-texts.ts";
import {
  idRow,
  joinWritten,
  NOTHING,
  rowWidth,
  SIZE,
  wordRow,
  writeRows,
  type Sketch,
  type Written,
} from "./sketch.ts";
import type { Rect, Shape } from "./shapes.ts";
import { textWidth } from "./text-width.ts";
import { ROLE_WORDS, type WireRole } from "./wire-roles.ts";

/** Where the label of a wire begins, to the right of its column. */
const LEFT = 12;
/** Side of a role tag. */
const TAG = 13;

/**
 * The tag of a role, which needs no colour: filled square for the supply side, ring for the ground side, open square for the others.
 *
 * @param x Its left edge.
 * @param y Its upper edge.
 */
export function drawTag(role: WireRole, x: number, y: number): Written {
  const { tag } = ROLE_WORDS[role];
  const box: Rect = { x0: x, y0: y, x1: x + TAG, y1: y + TAG };
  const middle = { x: x + TAG / 2, y: y + TAG / 2 };
  const width = textWidth(tag, "mono", SIZE.small);
  const rim: Shape =
    role === "ground"
      ? { kind: "circle", at: middle, radius: TAG / 2, stroke: "ink", width: 1.4, fill: "paper" }
      : { kind: "rect", box, stroke: "ink", width: 1.4, fill: role === "supply" ? "ink" : "paper", round: 2 };
  const text: Shape = {
    ...{ kind: "text", at: { x: middle.x - width / 2, y: middle.y + 4.2 }, text: tag, face: "mono" },
    ...{ size: SIZE.small, tone: role === "supply" ? "on-tag" : "ink", width },
  };
  return { shapes: [rim, text], blocks: [box] };
}

/**
 * The label of a wire: tag, id and role over colour code and size; on one row where rows are close.
 *
 * @param wire The wire.
 * @param facts Its role, and whether it belongs to what was asked for.
 */
export function sketchWireLabel(
  wire: Wire,
  facts: { readonly role: WireRole | undefined; readonly strong: boolean },
  style: SketchStyle,
): Sketch {
  const { role, strong } = facts;
  const top = style.close ? -SIZE.row / 2 : -SIZE.row;
  const tag = role ? drawTag(role, LEFT, top + 1.5) : NOTHING;
  const id = idRow(shownId(wire.id), strong);
  const left = LEFT + (role ? TAG + 4 : 0);
  const more = wordRow(wireFacts(wire, style.short), strong);
  const word = role && style.roleWords ? [wordRow(ROLE_WORDS[role].word, false)] : [];
  const after = (x: number, row: typeof id): number => x + rowWidth(row) + 6;
  const name = writeRows([id], left, top);
  if (style.close) return { ...joinWritten(tag, name, writeRows([more], after(left, id), top)), top: 0, bottom: 0 };
  const second = writeRows([more], LEFT, top + SIZE.row);
  return { ...joinWritten(tag, name, writeRows(word, after(left, id), top), second), top: 0, bottom: 0 };
}
