import { svgElement, svgNumber, svgPoints, svgText } from "../svg-text.ts";
import type { CircuitDiagram } from "./circuit-diagram.ts";
import { DASHES } from "./diagram-dashes.ts";
import { TOKENS, type DiagramTheme, type Token } from "./diagram-tokens.ts";
import { markerRects } from "./marker-rects.ts";
import type { Rect, Shape, ShapeGroup, Tone } from "./shapes.ts";

/** How a diagram is written. */
export interface DiagramSvgOptions {
  /** One theme; `device`: light or dark as the device is set, and black on white on paper. Default: `device`. */
  readonly theme?: DiagramTheme | "device";
  /** Puts the marker under the asked circuit, as in print. Default: not. */
  readonly marked?: boolean;
}

/** The class of a diagram; the theme is a second one, so that two diagrams of one page do not take each other's colours. */
const ROOT = "circuit-diagram";

/**
 * Writes a circuit diagram as SVG.
 *
 * @param diagram The diagram.
 * @returns The text of an SVG file with a line end at its end; the same diagram gives the same text.
 *
 * Source: Scalable Vector Graphics 1.1, W3C; `textLength` holds every text to the width that its place was made for.
 */
export function writeDiagramSvg(diagram: CircuitDiagram, options: DiagramSvgOptions = {}): string {
  const { theme = "device", marked = false } = options;
  const { width, height, title } = diagram;
  const marks = marked ? diagram.groups.filter(({ strong }) => strong).flatMap(markerOf) : [];
  const lines = [
    svgElement("title", {}, [svgText(title)]),
    svgElement("style", {}, [styleText(theme)]),
    svgElement("rect", { class: "f-paper", x: 0, y: 0, width, height }),
    ...(marks.length > 0 ? [svgElement("g", { class: "marker" }, marks)] : []),
    ...diagram.groups.map(groupText),
  ];
  const size = { viewBox: `0 0 ${svgNumber(width)} ${svgNumber(height)}`, width, height };
  const head = { xmlns: "http://www.w3.org/2000/svg", class: `${ROOT} ${theme}`, ...size, role: "img" };
  return `${svgElement("svg", head, [`\n${lines.join("\n")}\n`])}\n`;
}

function styleText(theme: DiagramTheme | "device"): string {
  const sets = (name: DiagramTheme): string =>
    `.${ROOT}.${theme}{${Object.entries(TOKENS[name])
      .map(([token, colour]) => `--${token}:${colour}`)
      .join(";")}}`;
  const device = `${sets("light")}@media (prefers-color-scheme:dark){${sets("dark")}}@media print{${sets("print")}}`;
  const tokens = theme === "device" ? device : sets(theme);
  const tones = Object.entries(TONES).flatMap(([tone, token]) => {
    const colour = token === "none" ? "none" : `var(--${token})`;
    return [`.${ROOT} .s-${tone}{stroke:${colour}}`, `.${ROOT} .f-${tone}{fill:${colour}}`];
  });
  const faces = [
    `.${ROOT} text{font-family:"Atkinson Hyperlegible Next",system-ui,sans-serif}`,
    `.${ROOT} .mono{font-family:"Atkinson Hyperlegible Mono",ui-monospace,monospace;font-weight:700}`,
    `.${ROOT} .rim{stroke:var(--ink);fill:none}`,
    `.${ROOT} .marker{fill:var(--mark)}`,
    `.${ROOT} polyline{fill:none;stroke-linejoin:round}`,
  ];
  return [tokens, ...faces, ...tones].join("");
}

/** The colour of each tone. */
const TONES: Readonly<Record<Tone | "on-pill" | "on-tag", Token | "none">> = {
  ink: "ink",
  quiet: "ink-3",
  accent: "accent",
  paper: "paper",
  surface: "surface-2",
  pill: "accent",
  "on-pill": "on-accent",
  "on-tag": "paper",
  none: "none",
};

function groupText({ kind, item, title, strong, shapes }: ShapeGroup): string {
  const data = item ? { "data-type": item.type, "data-id": item.id } : {};
  const content = shapes.flatMap(shapeText);
  const told = title === "" ? content : [svgElement("title", {}, [svgText(title)]), ...content];
  return svgElement("g", { class: strong ? `${kind} strong` : kind, ...data }, told);
}

function box({ x0, y0, x1, y1 }: Rect): Readonly<Record<string, number>> {
  return { x: x0, y: y0, width: x1 - x0, height: y1 - y0 };
}

function shapeText(shape: Shape): readonly string[] {
  switch (shape.kind) {
    case "polyline": {
      const dash = shape.dash ? { "stroke-dasharray": DASHES[shape.dash] } : {};
      const fill = shape.fill ? ` f-${shape.fill}` : "";
      const style = { class: `s-${shape.stroke}${fill}`, "stroke-width": shape.width, ...dash };
      return [svgElement("polyline", { ...style, points: svgPoints(shape.points) })];
    }
    case "rect": {
      const dash = shape.dash ? { "stroke-dasharray": DASHES[shape.dash] } : {};
      const round = shape.round === undefined ? {} : { rx: shape.round };
      const style = { class: `s-${shape.stroke} f-${shape.fill}`, "stroke-width": shape.width, ...dash };
      return [svgElement("rect", { ...style, ...box(shape.box), ...round })];
    }
    case "circle": {
      const style = { class: `s-${shape.stroke} f-${shape.fill}`, "stroke-width": shape.width };
      return [svgElement("circle", { ...style, cx: shape.at.x, cy: shape.at.y, r: shape.radius })];
    }
    case "text": {
      const style = { class: `f-${shape.tone}${shape.face === "mono" ? " mono" : ""}`, "font-size": shape.size };
      const held = { textLength: shape.width, lengthAdjust: "spacingAndGlyphs" };
      return [svgElement("text", { ...style, x: shape.at.x, y: shape.at.y, ...held }, [svgText(shape.text)])];
    }
    case "wire":
      return wireText(shape);
  }
}

/** A wire: an outline, the colour, and the stripe as dashes along it. */
function wireText({ from, to, width, mark }: Extract<Shape, { kind: "wire" }>): readonly string[] {
  const [x, y, height] = [from.x - width / 2, from.y, to.y - from.y];
  const rect = { x, y, width, height };
  const base = svgElement("rect", {
    ...rect,
    ...(mark.base === undefined ? { class: "f-paper" } : { fill: mark.base }),
  });
  const rim = svgElement("rect", { class: "rim", "stroke-width": 0.9, ...rect });
  if (mark.tracer === undefined) return [base, rim];
  const stripe = { x1: from.x, y1: from.y + 3, x2: to.x, y2: to.y - 1, stroke: mark.tracer };
  const dash = { "stroke-width": width * 0.4, "stroke-dasharray": DASHES.stripe };
  return [base, svgElement("line", { ...stripe, ...dash }), rim];
}

function markerOf(group: ShapeGroup): readonly string[] {
  return markerRects(group).map((rect) => svgElement("rect", box(rect)));
}
