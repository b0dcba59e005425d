import { writeDiagramSvg } from "ohmward/drawing";
import { SaxesParser } from "saxes";
import { describe, expect, test } from "vitest";
import { demo } from "../demo.ts";
import { diagramOf } from "./all-items.ts";

/** Elements of an SVG with their attributes; throws if it is no well-formed XML. Source of the check: saxes, an XML 1.0 parser. */
function parse(
  svg: string,
): readonly { readonly name: string; readonly attributes: Readonly<Record<string, string>> }[] {
  const elements: { name: string; attributes: Record<string, string> }[] = [];
  const parser = new SaxesParser({ xmlns: false });
  parser.on("error", (fault) => {
    throw fault;
  });
  parser.on("opentag", ({ name, attributes }) => elements.push({ name, attributes }));
  parser.write(svg).close();
  return elements;
}

describe("writeDiagramSvg()", () => {
  const diagram = diagramOf(demo, "M2");

  test("is well-formed, of known elements only, and every item can be found in it", () => {
    const elements = parse(writeDiagramSvg(diagram));
    expect(new Set(elements.map(({ name }) => name))).toEqual(
      new Set(["svg", "title", "style", "rect", "g", "polyline", "circle", "text", "line"]),
    );
    const items = elements.flatMap(({ attributes }) => attributes["data-id"] ?? []);
    expect(items).toEqual(expect.arrayContaining(["W30", "W31", "M2.motor", "A3.F10", "GND-C1"]));
    expect(elements[0]?.attributes["role"]).toBe("img");
  });

  test("takes colours from the theme alone; only wires have their own", () => {
    const elements = parse(writeDiagramSvg(diagram, { theme: "light" }));
    const fills = new Set(elements.flatMap(({ attributes: { fill, stroke } }) => [fill ?? [], stroke ?? []].flat()));
    expect([...fills].sort()).toEqual(["#1b1b1d", "#2b62c4", "#8b9096"]);
    expect(writeDiagramSvg(diagram, { theme: "dark" })).toContain("--paper:#10171a");
    expect(writeDiagramSvg(diagram)).toContain("prefers-color-scheme:dark");
  });

  test("holds every text to the width that its place was made for, and writes none smaller than 12 px", () => {
    const texts = parse(writeDiagramSvg(diagram)).filter(({ name }) => name === "text");
    expect(texts.length).toBeGreaterThan(40);
    expect(texts.filter(({ attributes }) => !(Number(attributes["textLength"]) > 0))).toEqual([]);
    expect(Math.min(...texts.map(({ attributes }) => Number(attributes["font-size"])))).toBeGreaterThanOrEqual(12);
  });

  test("marks the asked circuit where it is wanted", () => {
    expect(writeDiagramSvg(diagram)).not.toContain('class="marker"');
    const marked = parse(writeDiagramSvg(diagram, { marked: true }));
    const at = marked.findIndex(({ attributes }) => attributes["class"] === "marker");
    expect(at).toBeGreaterThan(0);
    expect(marked[at + 1]?.name).toBe("rect");
  });
});
