import { safeText } from "../base/index.ts";
import type { XY } from "./xy.ts";

/**
 * Text as it may stand in XML: what XML cannot hold becomes the replacement character, what turns the writing is shown by its number.
 *
 * Source: Extensible Markup Language (XML) 1.0, W3C, section 2.2.
 */
export function svgText(text: string): string {
  return safeText(text.replaceAll("\t", " "))
    .replace(/[^\t\n\u0020-\u007e\u00a0-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu, "\ufffd")
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;");
}

/** A number to one decimal, so that a drawing differs only where something moved. */
export function svgNumber(value: number): string {
  return String(Math.round(value * 10) / 10 + 0);
}

/**
 * An element with its attributes.
 *
 * @param attributes Its attributes; numbers are written to one decimal.
 * @param content What it holds, written already.
 */
export function svgElement(
  name: string,
  attributes: Readonly<Record<string, string | number>>,
  content: readonly string[] = [],
): string {
  const written = Object.entries(attributes).map(
    ([key, value]) => ` ${key}="${typeof value === "number" ? svgNumber(value) : svgText(value)}"`,
  );
  const open = `<${name}${written.join("")}`;
  return content.length === 0 ? `${open}/>` : `${open}>${content.join("")}</${name}>`;
}

/** Points as the attribute `points` has them. */
export function svgPoints(points: readonly XY[]): string {
  return points.map(({ x, y }) => `${svgNumber(x)},${svgNumber(y)}`).join(" ");
}
