import type { Core, NodeSingular } from "cytoscape";
import { placeNames, type NamedPoint } from "../../drawing/index.ts";
import { titlesAreShown, type Look } from "./graph-style.ts";

/** Rough room of a letter and of a line of the names, in pixels. */
const LETTER = 7;
const LINE = 15;
/** Below this zoom only lit things are named while something is lit; below the other one nothing else is in a large machine. */
const NAME_ALL_ZOOM = { lit: 0.7, large: 0.35 };
const LARGE = 120;

/** Writes to each thing on which side its name stands, or that it has no room for one. */
export function setNameSides(cy: Core, look: Look): void {
  const lit = cy.nodes(".thing.lit").toArray();
  const others = namesAll(cy, look) ? (cy.nodes(".thing").not(".lit").toArray() as NodeSingular[]) : [];
  others.sort((a, b) => rank(a) - rank(b));
  const named = [...lit, ...others];
  const wires = (cy.nodes(".name").toArray()).map((node) => {
    const { x, y } = node.renderedPosition();
    return { x, y, width: String(node.data("label")).length * LETTER + 6, height: LINE + 4 };
  });
  const sides = placeNames(
    named.map((node, at) => room(node, at < lit.length && titlesAreShown(look))),
    wires,
  );
  if (!namesAll(cy, look))
    cy.nodes(".thing")
      .not(".lit")
      .forEach((node) => setSide(node, "none"));
  // What is lit is named in any case: two names over each other still say more than none.
  named.forEach((node, at) => setSide(node, sides[at] === "none" && at < lit.length ? "below" : (sides[at] ?? "none")));
}

function namesAll(cy: Core, look: Look): boolean {
  if (look.isLit) return look.zoom > NAME_ALL_ZOOM.lit;
  return look.zoom > NAME_ALL_ZOOM.large || cy.nodes(".thing").length < LARGE;
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
