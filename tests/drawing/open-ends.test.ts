import { highlight, layoutHarness, wireEnds, writeHarnessSvg } from "ohmward/drawing";
import { fitBuild } from "ohmward/harness-model";
import { expect, test } from "vitest";
import { wireWay } from "../../src/drawing/highlighted-bundles.ts";
import { readGood } from "../import-export/support/read-file.ts";

const text = "Wire,From,To,Colour\nW1,X1:1,X2:1,RD\nW2,X1:2,,BU\nW3,X1:3,,GN\nW4,X3:1,,BK\n";
const harness = fitBuild(readGood(text, "list.csv").document, "base");
if (!harness) throw new Error("There is no build");

test("wires with one end are drawn as a stub from the thing they start at", () => {
  const layout = layoutHarness(harness);
  expect(layout.openEnds.map(({ id }) => id)).toEqual(["X1:?", "X3:?"]);
  expect(layout.bundles.find((bundle) => bundle.wires.includes("W2"))?.wires).toEqual(["W2", "W3"]);
  for (const wire of ["W2", "W3", "W4"]) {
    const [leg] = wireWay(harness, layout, wire);
    expect(leg && Math.hypot(leg.from.x - leg.to.x, leg.from.y - leg.to.y)).toBeGreaterThan(10);
  }
  expect(wireEnds(harness, "W4")?.map(({ type }) => type)).toEqual(["connector", "open-end"]);
});

test("a lit wire brings its stub with it, and the picture names it", () => {
  expect([...highlight(harness, ["W4"]).items]).toEqual(["connector X3", "open-end X3:?"]);
  expect(writeHarnessSvg(harness, { lit: ["W4"] })).toContain("Far end not in the data");
});
