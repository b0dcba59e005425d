import { layoutHarness, writeHarnessSvg } from "ohmward/drawing";
import { fitBuild } from "ohmward/harness-model";
import { SaxesParser } from "saxes";
import { describe, expect, test } from "vitest";
import { openDemo } from "../demo-harness/open-demo.ts";
import { demo } from "./demo.ts";

/** Names of elements and texts of an SVG; throws if it is no well-formed XML. Source of the check: saxes, an XML 1.0 parser. */
function parse(svg: string): { readonly elements: readonly string[]; readonly texts: readonly string[] } {
  const elements: string[] = [];
  const texts: string[] = [];
  const parser = new SaxesParser({ xmlns: true });
  parser.on("error", (fault) => {
    throw fault;
  });
  parser.on("opentag", (tag) => {
    if (tag.uri !== "http://www.w3.org/2000/svg") throw new Error(`${tag.name} is no SVG`);
    elements.push(tag.name);
  });
  parser.on("text", (text) => {
    if (text.trim() !== "") texts.push(text);
  });
  parser.write(svg).close();
  return { elements, texts };
}

describe("writeHarnessSvg()", () => {
  const lit = ["W71", "W72", "W89"];
  const svg = writeHarnessSvg(demo, { lit });

  test("is as it was", async () => {
    await expect(svg).toMatchFileSnapshot("pictures/harness-lit.svg");
  });

  test("is well-formed, of known elements only, and names every connector, stud and splice by its id", () => {
    const { elements, texts } = parse(svg);
    expect(new Set(elements)).toEqual(new Set(["svg", "title", "rect", "g", "polygon", "polyline", "text"]));
    const written = new Set(texts);
    const missing = [...layoutHarness(demo).items.values()].filter((item) => !written.has(item.id));
    expect(missing.map((item) => item.id)).toEqual([]);
    expect(texts.join("\n")).toContain("Not to scale");
  });

  test("draws lit wires with their letters, and none where none are asked for", () => {
    const { texts } = parse(svg);
    expect(texts).toEqual(expect.arrayContaining(["W71 PK", "W72 PK", "W89 WH/RD"]));
    const plain = writeHarnessSvg(demo);
    expect(plain).not.toContain('id="wires"');
    expect(writeHarnessSvg(demo, { lit: ["no such wire"] })).toBe(plain);
    expect(writeHarnessSvg(demo)).toBe(plain);
  });

  test("keeps everything inside its frame", () => {
    const [x = 0, y = 0, width = 0, height = 0] = (/viewBox="([^"]+)"/u.exec(svg)?.[1] ?? "").split(" ").map(Number);
    const points = [...svg.matchAll(/points="([^"]+)"/gu)].flatMap(([, list = ""]) => list.split(" "));
    expect(points.length).toBeGreaterThan(300);
    const outside = points.filter((point) => {
      const [left = NaN, top = NaN] = point.split(",").map(Number);
      return !(left >= x && left <= x + width && top >= y && top <= y + height);
    });
    expect(outside).toEqual([]);
  });

  test("spreads things that stand close until every name has room, and boxes no more than needed", () => {
    const document = openDemo();
    const places = document.topologyNodes.map((place) => {
      return place.x === undefined || place.y === undefined ? place : { ...place, x: place.x / 4, y: place.y / 4 };
    });
    const harness = fitBuild({ ...document, topologyNodes: places }, "base");
    if (!harness) throw new Error("there is no such build");
    const close = writeHarnessSvg(harness);
    const written = new Set(parse(close).texts);
    expect([...layoutHarness(harness).items.values()].filter((item) => !written.has(item.id))).toEqual([]);
    expect(close).toMatch(/<rect x="[^"]+" y="[^"]+" width="56" height="56" rx="6"><title>B4 /u);
  });

  test("writes texts of the document as texts, whatever they hold", () => {
    const document = openDemo();
    const about = { ...document.about, machine: '<script>alert("&")</script>\u0000\u202e' };
    const harness = fitBuild({ ...document, about }, "base");
    if (!harness) throw new Error("there is no such build");
    const { elements, texts } = parse(writeHarnessSvg(harness));
    expect(elements).not.toContain("script");
    expect(texts.some((text) => text.includes('<script>alert("&")</script>\\u0000\\u202e'))).toBe(true);
  });

  test("lays out what has no coordinates", () => {
    const document = openDemo();
    const bare = document.topologyNodes.map(({ id, label }) => ({ id, ...(label === undefined ? {} : { label }) }));
    const harness = fitBuild({ ...document, topologyNodes: bare }, "base");
    if (!harness) throw new Error("there is no such build");
    expect(parse(writeHarnessSvg(harness)).texts).toContain("A1.X1");
  });
});
