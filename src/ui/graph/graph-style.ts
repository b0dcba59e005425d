import type { EdgeSingular, NodeSingular, StylesheetJson } from "cytoscape";
import type { Palette } from "./palette.ts";

/** How the drawing is looked at: what sizes depend on. */
export interface Look {
  /** Screen pixels a drawing unit. */
  zoom: number;
  /** Something is lit, so the rest stands back. */
  isLit: boolean;
  /** How many items are lit: the fewer, the more is written at each. */
  litCount: number;
}

const FONT = '"Segoe UI", system-ui, "Noto Sans", "DejaVu Sans", sans-serif';

const VERTICAL = new Map<string, "bottom" | "top">([
  ["below", "bottom"],
  ["above", "top"],
]);
const HORIZONTAL = new Map<string, "left" | "right">([
  ["left", "left"],
  ["right", "right"],
]);
const MARGIN_Y = new Map([
  ["below", 3],
  ["above", -3],
]);
const MARGIN_X = new Map([
  ["left", -3],
  ["right", 3],
]);

/** Whether lit items are written with their label under the id. */
export function titlesAreShown(look: Look): boolean {
  return (look.litCount <= 4 && look.zoom > 0.5) || look.zoom > 1.2;
}

/** The style of the drawing. Texts and signs keep a readable size on the screen, whatever the zoom. */
export function graphStyle(palette: Palette, look: Look): StylesheetJson {
  // Seen from far away signs may shrink, or those of a large machine would cover each other.
  const nearness = (): number => Math.min(1, Math.max(0.3, look.zoom / 0.3));
  const size = (units: number, pixels: number): number => Math.max(units, (pixels * nearness()) / look.zoom);
  const text = (pixels: number): number => pixels / look.zoom;
  return [
    {
      selector: "*",
      style: { "z-index-compare": "manual", "z-compound-depth": "auto", "overlay-opacity": 0, "font-family": FONT },
    },
    {
      selector: ".zone",
      style: {
        shape: "polygon",
        "shape-polygon-points": (node: NodeSingular) => String(node.data("points")),
        width: "data(width)",
        height: "data(height)",
        "background-color": palette.zone,
        "background-opacity": 0.55,
        label: "data(label)",
        color: palette.zoneInk,
        "font-size": () => text(11),
        "text-valign": "top",
        "text-margin-y": () => text(-1),
        "text-wrap": "ellipsis",
        "text-max-width": (node: NodeSingular) => `${Math.max(90 / look.zoom, Number(node.data("width")) * 0.8)}px`,
        "text-opacity": () => (look.zoom > 0.3 ? 0.95 : 0),
        "z-index": 0,
        events: "no",
      },
    },
    {
      selector: ".box",
      style: {
        shape: "round-rectangle",
        width: "data(width)",
        height: "data(height)",
        "background-opacity": 0.35,
        "background-color": palette.item,
        "border-width": () => size(1, 1),
        "border-color": palette.bundle,
        "z-index": 1,
        events: "no",
      },
    },
    {
      selector: ".bundle",
      style: {
        width: (edge: EdgeSingular) => size(Number(edge.data("width")), 2),
        "line-color": palette.bundle,
        "curve-style": "straight",
        "line-cap": "round",
        "z-index": 2,
      },
    },
    { selector: ".bundle.lit", style: { "line-color": palette.quiet, "z-index": 6 } },
    {
      selector: ".bundle.direct",
      style: { width: () => size(2, 1.25), "line-style": "dashed", "line-dash-pattern": [10, 6] },
    },
    {
      selector: ".stub",
      style: {
        width: () => size(3, 1.5),
        "line-color": palette.bundle,
        "curve-style": "straight",
        "z-index": 2,
        events: "no",
      },
    },
    {
      selector: ".place",
      style: { width: 1, height: 1, "background-color": palette.bundle, "z-index": 3, events: "no" },
    },
    { selector: ".branch", style: { width: () => size(9, 4), height: () => size(9, 4) } },
    {
      selector: ".thing",
      style: {
        shape: "round-rectangle",
        width: () => size(22, 12),
        height: () => size(16, 9),
        "background-color": palette.item,
        "border-width": () => size(2, 1.25),
        "border-color": palette.quiet,
        label: "data(label)",
        color: palette.ink,
        "font-size": () => text(11.5),
        "text-valign": (node: NodeSingular) => VERTICAL.get(String(node.data("side"))) ?? "center",
        "text-halign": (node: NodeSingular) => HORIZONTAL.get(String(node.data("side"))) ?? "center",
        "text-margin-y": (node: NodeSingular) => text(MARGIN_Y.get(String(node.data("side"))) ?? 0),
        "text-margin-x": (node: NodeSingular) => text(MARGIN_X.get(String(node.data("side"))) ?? 0),
        "text-opacity": (node: NodeSingular) => (node.data("side") === "none" ? 0 : 1),
        "text-wrap": "wrap",
        "text-outline-color": palette.paper,
        "text-outline-width": () => text(2),
        "z-index": 4,
      },
    },
    { selector: ".stud", style: { shape: "hexagon", width: () => size(18, 10), height: () => size(18, 10) } },
    { selector: ".splice", style: { shape: "diamond", width: () => size(17, 10), height: () => size(17, 10) } },
    { selector: ".open-end", style: { shape: "triangle", width: () => size(17, 10), height: () => size(17, 10) } },
    {
      selector: ".veil",
      style: {
        shape: "rectangle",
        width: "data(width)",
        height: "data(height)",
        "background-color": palette.paper,
        "background-opacity": 0.72,
        "z-index": 5,
        events: "no",
      },
    },
    { selector: ".anchor", style: { width: 1, height: 1, "background-opacity": 0, "z-index": 6, events: "no" } },
    {
      selector: ".wire",
      style: {
        width: () => size(6, 4),
        "line-color": (edge: EdgeSingular) => String(edge.data("colour")) || palette.unknownWire,
        "line-outline-width": () => size(1.5, 1.25),
        "line-outline-color": palette.ink,
        "line-cap": "round",
        "z-index": 7,
      },
    },
    {
      selector: ".tracer",
      style: {
        width: () => size(2.4, 1.6),
        "line-color": "data(tracer)",
        "line-style": "dashed",
        "line-dash-pattern": [12, 9],
        "z-index": 8,
        events: "no",
      },
    },
    {
      selector: ".wire, .tracer",
      style: { "curve-style": "straight", "source-endpoint": "inside-to-node", "target-endpoint": "inside-to-node" },
    },
    {
      selector: ".bent",
      style: {
        "curve-style": "round-segments",
        "segment-weights": (edge: EdgeSingular) => String(edge.data("weights")),
        "segment-distances": (edge: EdgeSingular) => String(edge.data("distances")),
        "segment-radii": "14",
        "edge-distances": "node-position",
      } as StylesheetJson[number] extends { style: infer Style } ? Style : never,
    },
    {
      selector: ".thing.lit",
      style: {
        "border-color": palette.ink,
        "border-width": () => size(3, 2),
        label: (node: NodeSingular) => String(node.data(titlesAreShown(look) ? "title" : "label")),
        "font-size": () => text(12),
        "font-weight": "bold",
        "z-index": 10,
      },
    },
    {
      selector: ".name",
      style: {
        shape: "round-rectangle",
        width: 1,
        height: 1,
        "background-opacity": 0,
        label: "data(label)",
        color: palette.ink,
        "font-size": () => text(12),
        "font-weight": "bold",
        "text-valign": "center",
        "text-background-color": palette.paper,
        "text-background-opacity": 0.92,
        "text-background-padding": () => `${text(2.5)}px`,
        "text-background-shape": "roundrectangle",
        "text-border-color": palette.quiet,
        "text-border-width": () => text(1),
        "text-border-opacity": 1,
        "z-index": 9,
        events: "no",
      },
    },
    {
      selector: ".picked",
      style: {
        "underlay-color": palette.accent,
        "underlay-opacity": 0.55,
        "underlay-padding": () => `${size(8, 7)}px`,
        "z-index": 11,
      },
    },
    { selector: ".wire.picked", style: { "underlay-padding": () => `${size(6, 6)}px`, label: "" } },
    { selector: ".bundle.picked", style: { "underlay-padding": () => `${size(6, 6)}px`, label: "", "z-index": 6 } },
  ];
}
