import { layoutHarness, litBundles, wireEnds } from "ohmward/drawing";
import { fitBuild, openHarness, type Harness } from "ohmward/harness-model";
import { describe, expect, test } from "vitest";
import { generateHarness } from "../generate/generate-harness.ts";
import { demo } from "./demo.ts";

/** A document fitted in its first build; throws where it does not open. */
function fit(document: unknown): Harness {
  const opened = openHarness(JSON.stringify(document));
  if (!opened.ok) throw new Error(opened.error.map((problem) => problem.message).join("\n"));
  const harness = fitBuild(opened.value.document, opened.value.document.builds[0]?.id ?? "");
  if (!harness) throw new Error("The document has no build");
  return harness;
}

function withoutPoints(document: Harness["document"]): unknown {
  return { ...document, topologyNodes: document.topologyNodes.map(({ id }) => ({ id })) };
}

const bare = fit(withoutPoints(demo.document));
const generated = fit(generateHarness({ seed: 3, wires: 400 }));

describe("layoutHarness()", () => {
  test("keeps the points of the document", () => {
    const { placeById, items } = layoutHarness(demo);
    for (const { id, x, y } of demo.document.topologyNodes) {
      const drawn = placeById.get(id);
      if (drawn) expect([id, drawn.x, drawn.y]).toEqual([id, x, y]);
    }
    expect(items.get("connector B3.X")).toMatchObject({ x: 432, y: 315, place: "N_B3", component: "B3", zone: "Z2" });
  });

  test("draws every fitted connector, stud and splice once, and nothing else", () => {
    const { connectors, terminalStuds, splices } = layoutHarness(demo);
    const ids = (items: readonly { readonly id: string }[]): readonly string[] => items.map((item) => item.id).sort();
    expect(ids(connectors)).toEqual([...demo.fitted.connectors.keys()].sort());
    expect(ids(terminalStuds)).toEqual([...demo.fitted.terminalStuds.keys()].sort());
    expect(ids(splices)).toEqual([...demo.fitted.splices.keys()].sort());
  });

  test("sets a splice on its segment, at its share of the length where there is room", () => {
    const { items, placeById } = layoutHarness(demo);
    // SP11 is told to lie 100 of 400 mm from BP2 in SG04.
    const [from, to] = [placeById.get("BP2"), placeById.get("BP6")];
    const splice = items.get("splice SP11");
    if (!from || !to || !splice) throw new Error("Something is not drawn");
    expect([splice.x, splice.y]).toEqual([from.x + (to.x - from.x) / 4, from.y + (to.y - from.y) / 4]);
  });

  test.each([
    ["the demo machine", demo],
    ["the demo machine without points", bare],
    ["a generated machine", generated],
  ])("covers no thing with another: %s", (_name, harness) => {
    const items = [...layoutHarness(harness).items.values()];
    const seen = new Map(items.map((item) => [`${Math.round(item.x)} ${Math.round(item.y)}`, item.id]));
    expect(seen.size).toBe(items.length);
  });

  test("lays out bundles as a tree that does not cross itself where the document has no points", () => {
    const { bundles } = layoutHarness(bare);
    const segments = bundles.filter((bundle) => bundle.kind === "segment");
    expect(segments.length).toBeGreaterThan(40);
    // More places than bundles: the segments of this machine close no ring, so nothing has to cross.
    expect(new Set(segments.flatMap((bundle) => bundle.ends)).size).toBeGreaterThan(segments.length);
    for (const a of segments) {
      for (const b of segments) {
        if (a.id < b.id && !a.ends.some((end) => b.ends.includes(end)))
          expect([a.id, b.id, cross(a, b)]).toEqual([a.id, b.id, false]);
      }
    }
  });

  test("gives the same points every time", () => {
    const again = fit(withoutPoints(demo.document));
    expect(layoutHarness(again).items).toEqual(layoutHarness(bare).items);
    expect(layoutHarness(demo)).toBe(layoutHarness(demo));
  });

  test("grows a few missing points out of their neighbours and leaves the others where they are", () => {
    const places = demo.document.topologyNodes.map((place) => (place.id === "N_B3" ? { id: place.id } : place));
    const { placeById } = layoutHarness(fit({ ...demo.document, topologyNodes: places }));
    const [grown, root] = [placeById.get("N_B3"), placeById.get("BP6")];
    if (!grown || !root) throw new Error("A place is not drawn");
    expect([root.x, root.y]).toEqual([425, 365]);
    expect(Math.hypot(grown.x - root.x, grown.y - root.y)).toBeCloseTo(70, 6);
  });

  test("draws wires without any places or segments as direct bundles between the things they join", () => {
    const wires = demo.document.wires.map(({ route: _route, ...wire }) => wire);
    const splices = demo.document.splices.map(({ at: _at, ...splice }) => splice);
    const connectors = demo.document.connectors.map(({ place: _place, ...connector }) => connector);
    const terminalStuds = demo.document.terminalStuds.map(({ place: _place, ...stud }) => stud);
    const loose = fit({ ...demo.document, wires, splices, connectors, terminalStuds, topologyNodes: [], segments: [] });
    const { bundles, items } = layoutHarness(loose);
    expect(bundles.every((bundle) => bundle.kind === "direct")).toBe(true);
    const carried = bundles.flatMap((bundle) => bundle.wires).length;
    // The loop of the jumper plug joins a connector with itself.
    expect(carried).toBe(loose.fitted.wires.size - 1);
    expect([...items.values()].every(({ x, y }) => Number.isFinite(x) && Number.isFinite(y))).toBe(true);
  });
});

describe("litBundles()", () => {
  test.each([
    ["the demo machine", demo],
    ["the demo machine without points", bare],
    ["a generated machine", generated],
  ])("draws every wire from its first end to its second through the bundles of its route: %s", (_name, harness) => {
    const layout = layoutHarness(harness);
    const { wires } = litBundles(harness, harness.fitted.wires.keys());
    expect(wires.length).toBe(harness.fitted.wires.size);
    for (const { wire, points, bundles } of wires) {
      const route = harness.fitted.wires.get(wire)?.route;
      if (route && route.length > 0) expect([wire, bundles]).toEqual([wire, route]);
      const [from, to] = (wireEnds(harness, wire) ?? []).map((end) => layout.items.get(`${end.type} ${end.id}`));
      expect(apart(points[0], from)).toBeLessThan(40);
      expect(apart(points.at(-1), to)).toBeLessThan(40);
    }
  });

  test("sets wires of one bundle side by side, never on each other", () => {
    const { bundles, wires } = litBundles(demo, ["W71", "W78", "W89", "W90", "W103"]);
    expect(bundles.get("SG01")).toEqual(["W71", "W78", "W89", "W90", "W103"]);
    const starts = wires.map(({ points }) => `${points[0]?.x.toFixed(2)} ${points[0]?.y.toFixed(2)}`);
    expect(new Set(starts).size).toBe(5);
  });

  test("writes the names of wires of one bundle at different shares of it, whichever way each wire runs", () => {
    // W22 comes from the pass-through, W23 goes back beside it.
    const [out, back] = litBundles(demo, ["W22", "W23"]).wires.map((wire) => wire.middle);
    expect(apart(out, back)).toBeGreaterThan(100);
  });

  test("passes over what is no fitted wire", () => {
    expect(litBundles(demo, ["W123", "A1.X1:36", "__proto__"]).wires).toEqual([]);
  });
});

interface Line {
  readonly from: { readonly x: number; readonly y: number };
  readonly to: { readonly x: number; readonly y: number };
}

function cross(a: Line, b: Line): boolean {
  const side = (line: Line, point: Line["from"]): number =>
    Math.sign(
      (line.to.x - line.from.x) * (point.y - line.from.y) - (line.to.y - line.from.y) * (point.x - line.from.x),
    );
  return side(a, b.from) * side(a, b.to) < 0 && side(b, a.from) * side(b, a.to) < 0;
}

function apart(a: Line["from"] | undefined, b: Line["from"] | undefined): number {
  return a && b ? Math.hypot(a.x - b.x, a.y - b.y) : Infinity;
}
