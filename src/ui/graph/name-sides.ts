import type { Core, NodeSingular } from "cytoscape";
import { placeNames, type NamedPoint } from "../../drawing/index.ts";
import { titlesAreShown, type Look } from "./graph-style.ts";

/** Rough room of a letter and of a line of the names, in pixels. */
const LETTER = 7;
const LINE = 15;
/** Below this zoom only lit items are named while something is lit; below the other one nothing else is in a large machine. */
const NAME_ALL_ZOOM = { lit: 0.7, large: 0.35 };
const LARGE = 120;
/** Most lit items that are named even where there is no room. */
const MOST_FORCED = 30;

/** Writes to each item on which side its name stands, or that it has no room for one. */
export function setNameSides(cy: Core, look: Look): void {
  const isSeen = inView(cy);
  const areAllNamed = namesAll(cy, look);
  const items = cy.nodes(".thing").toArray();
  const lit = items.filter((node) => node.hasClass("lit") && isSeen(node));
  const others = areAllNamed ? items.filter((node) => !node.hasClass("lit") && isSeen(node)) : [];
  others.sort((a, b) => rank(a) - rank(b));
  const named = [...lit, ...others];
  const sides = placeNames(
    named.map((node, at) => room(node, at < lit.length && titlesAreShown(look))),
    cy.nodes(".name").toArray().map(wireNameRoom),
  );
  if (!areAllNamed) for (const node of items) if (!node.hasClass("lit")) setSide(node, "none");
  // Few items that are lit are named in any case: two names over each other still say more than none.
  const always = lit.length <= MOST_FORCED ? lit.length : 0;
  named.forEach((node, at) => setSide(node, sides[at] === "none" && at < always ? "below" : (sides[at] ?? "none")));
}

function wireNameRoom(node: NodeSingular): { x: number; y: number; width: number; height: number } {
  const { x, y } = node.renderedPosition();
  return { x, y, width: String(node.data("label")).length * LETTER + 6, height: LINE + 4 };
}

function namesAll(cy: Core, look: Look): boolean {
  if (look.isLit) return look.zoom > NAME_ALL_ZOOM.lit;
  return look.zoom > NAME_ALL_ZOOM.large || cy.nodes(".thing").length < LARGE;
}

/** Whether a node lies in the part of the drawing that is seen; names of others are not worth the time. */
function inView(cy: Core): (node: NodeSingular) => boolean {
  const { x1, x2, y1, y2 } = cy.extent();
  return (node) => {
    const { x, y } = node.position();
    return x > x1 && x < x2 && y > y1 && y < y2;
  };
}

function setSide(node: NodeSingular, side: string): void {
  if (node.data("side") !== side) node.data("side", side);
}

function rank(node: NodeSingular): number {
  if (node.hasClass("connector")) return 0;
  return node.hasClass("stud") ? 1 : 2;
}

function room(node: NodeSingular, isTitle: boolean): NamedPoint {
  const { x, y } = node.renderedPosition();
  const lines = String(node.data(isTitle ? "title" : "label")).split("\n");
  return {
    x,
    y,
    width: Math.max(...lines.map((line) => line.length)) * LETTER,
    height: lines.length * LINE,
    halfWidth: node.renderedWidth() / 2,
    halfHeight: node.renderedHeight() / 2,
  };
}
