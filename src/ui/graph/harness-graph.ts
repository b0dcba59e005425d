import cytoscape, { type Core, type EventObject, type NodeSingular } from "cytoscape";
import type { Bounds, Highlight, Layout, HighlightedWire } from "../../drawing/index.ts";
import type { Item } from "../../connectivity/index.ts";
import { baseElements, wireElements } from "./graph-elements.ts";
import { graphStyle, type Look } from "./graph-style.ts";
import { setNameSides } from "./name-sides.ts";
import type { Palette } from "./palette.ts";

/** What lights up: traced wires as lines, and the items of the answer. */
export interface Highlighted {
  readonly wires: readonly HighlightedWire[];
  readonly items: Highlight["items"];
  readonly bundles: Highlight["bundles"];
}

/** The harness drawing on a canvas. */
export interface HarnessGraph {
  light(lit: Highlighted | undefined): void;
  /** Marks the selected element by its key, such as `connector A1.X1`, `wire W89`, `bundle SG01`. */
  pick(key: string | undefined): void;
  fit(what: "all" | "lit"): void;
  zoomBy(factor: number): void;
  panBy(x: number, y: number): void;
  recolour(palette: Palette): void;
  resize(): void;
  picture(): string;
  close(): void;
}

/** Most names of wires written at once; more cover each other. */
const MOST_NAMES = 9;
/** A tap that hits nothing takes the nearest item within this many pixels: gloves are thick. */
const NEAR_PX = 26;

/** Opens the drawing of a layout in an element of the page. */
export function openHarnessGraph(
  container: HTMLElement,
  layout: Layout,
  options: { readonly palette: Palette; readonly onPick: (item: Item | undefined) => void },
): HarnessGraph {
  const look: Look = { zoom: 1, isLit: false, litCount: 0 };
  const cy = cytoscape({
    container,
    elements: baseElements(layout),
    style: graphStyle(options.palette, look),
    layout: { name: "preset", fit: false },
    autoungrabify: true,
    autounselectify: true,
    boxSelectionEnabled: false,
    minZoom: 0.02,
    maxZoom: 6,
    touchTapThreshold: 14,
  });
  let lit: Highlighted | undefined;
  const stopWatching = keepTextSize(cy, look);
  cy.on("tap", (event) => options.onPick(itemAt(cy, event)));
  const fitTo = (box: Bounds): void => {
    fitBox(cy, box);
    settle(cy, look);
  };
  fitTo(layout.bounds);
  return {
    light(next) {
      lit = next;
      look.isLit = next !== undefined;
      look.litCount = next?.items.size ?? 0;
      cy.batch(() => showLit(cy, layout, next));
    },
    pick(key) {
      cy.batch(() => {
        cy.$(".picked").removeClass("picked");
        if (key !== undefined) cy.getElementById(key).addClass("picked");
      });
    },
    fit(what) {
      const box = what === "lit" && lit ? boxOfLit(layout, lit) : undefined;
      fitTo(box ?? layout.bounds);
    },
    zoomBy(factor) {
      const middle = { x: cy.width() / 2, y: cy.height() / 2 };
      cy.zoom({ level: cy.zoom() * factor, renderedPosition: middle });
    },
    panBy(x, y) {
      cy.panBy({ x, y });
    },
    recolour(palette) {
      cy.style(graphStyle(palette, look));
    },
    resize() {
      cy.resize();
    },
    picture() {
      return cy.png({ scale: 1 });
    },
    close() {
      stopWatching();
      cy.destroy();
    },
  };
}

/** Only what is lit is touched: a veil between it and the rest does the fading, so thousands of elements stay as they are. */
function showLit(cy: Core, layout: Layout, lit: Highlighted | undefined): void {
  cy.remove(".traced");
  cy.$(".lit").removeClass("lit");
  if (!lit) return;
  const { x, y, width, height } = layout.bounds;
  const veil = { width: width * 12 + 8000, height: height * 12 + 8000, id: "veil" };
  cy.add({ data: veil, position: { x: x + width / 2, y: y + height / 2 }, classes: "veil traced" });
  const named = lit.wires.length <= MOST_NAMES;
  const elements = lit.wires.flatMap((wire) => wireElements(wire, "traced"));
  cy.add(named ? elements : elements.filter(({ classes }) => !String(classes).startsWith("name")));
  for (const key of lit.items) cy.getElementById(key).addClass("lit");
  for (const id of lit.bundles) cy.getElementById(`bundle ${id}`).addClass("lit");
}

/** Sizes that keep their pixels, and the names in view, are worked out again once the view has settled. */
function keepTextSize(cy: Core, look: Look): () => void {
  let timer: number | undefined;
  cy.on("viewport", () => {
    window.clearTimeout(timer);
    timer = window.setTimeout(() => settle(cy, look), 60);
  });
  return () => {
    window.clearTimeout(timer);
  };
}

function settle(cy: Core, look: Look): void {
  const isZoomed = Math.abs(look.zoom / cy.zoom() - 1) > 0.02;
  look.zoom = cy.zoom();
  cy.batch(() => {
    if (isZoomed) cy.style().update();
    setNameSides(cy, look);
  });
}

function itemAt(cy: Core, event: EventObject): Item | undefined {
  const target: unknown = event.target;
  if (target !== cy) {
    const element = event.target as NodeSingular;
    if (element.hasClass("thing") || element.hasClass("wire")) return itemOf(element);
  }
  const near = nearestThing(cy, event.renderedPosition);
  if (near) return near;
  return target !== cy && (event.target as NodeSingular).hasClass("bundle")
    ? bundleItem(event.target as NodeSingular)
    : undefined;
}

function itemOf(element: NodeSingular): Item {
  return { type: String(element.data("type")) as Item["type"], id: String(element.data("item")) };
}

/** A direct run of wires is no segment of the document, so there is nothing to select. */
function bundleItem(element: NodeSingular): Item | undefined {
  return element.hasClass("segment") ? { type: "segment", id: String(element.data("item")) } : undefined;
}

function nearestThing(cy: Core, at: { readonly x: number; readonly y: number }): Item | undefined {
  let best: { readonly apart: number; readonly item: Item } | undefined;
  cy.nodes(".thing").forEach((node) => {
    const { x, y } = node.renderedPosition();
    const apart = Math.hypot(x - at.x, y - at.y);
    if (apart < NEAR_PX && (!best || apart < best.apart)) best = { apart, item: itemOf(node) };
  });
  return best?.item;
}

function boxOfLit(layout: Layout, lit: Highlighted): Bounds | undefined {
  const items = [...lit.items].flatMap((key) => layout.items.get(key) ?? []);
  const points = [...lit.wires.flatMap((wire) => wire.points), ...items];
  if (points.length === 0) return undefined;
  const xs = points.map((point) => point.x);
  const ys = points.map((point) => point.y);
  const [x, y] = [xs.reduce((a, b) => Math.min(a, b)), ys.reduce((a, b) => Math.min(a, b))];
  return { x, y, width: xs.reduce((a, b) => Math.max(a, b)) - x, height: ys.reduce((a, b) => Math.max(a, b)) - y };
}

function fitBox(cy: Core, { x, y, width, height }: Bounds): void {
  // Names stand under items and reach out to their sides; the buttons take the upper edge.
  const side = Math.min(80, cy.width() * 0.1);
  const [top, bottom] = [Math.min(64, cy.height() * 0.2), Math.min(44, cy.height() * 0.14)];
  const room = { width: Math.max(40, cy.width() - 2 * side), height: Math.max(40, cy.height() - top - bottom) };
  const zoom = Math.min(1.7, room.width / Math.max(1, width), room.height / Math.max(1, height));
  cy.viewport({
    zoom,
    pan: { x: cy.width() / 2 - zoom * (x + width / 2), y: top + room.height / 2 - zoom * (y + height / 2) },
  });
}
