import { connectorFace, cavityContents, layoutHarness, litBundles, pathStrip } from "ohmward/drawing";
import type { Connector, Half } from "ohmward/model";
import { describeItem, findBetween, resolve, type Resolved } from "ohmward/trace";
import { expect, test } from "vitest";
import { fitDemo, openDemo } from "../demo-harness/open-demo.ts";
import { faceSvg, layoutSvg, stripSvg } from "./svg-text.ts";

const harness = fitDemo(openDemo(), "base");

function thing(text: string): Resolved {
  const found = resolve(harness, text);
  if (found.kind !== "one") throw new Error(`"${text}" is ${found.kind}`);
  return found.item;
}

function half(connectorId: string, halfId: string): readonly [Connector, Half] {
  const connector = harness.document.connectors.find((each) => each.id === connectorId);
  const found = connector?.halves.find((each) => each.id === halfId);
  if (!connector || !found) throw new Error(`There is no half ${connectorId}.${halfId}`);
  return [connector, found];
}

function face(connectorId: string, halfId: string, view: "wire-side" | "mating-side"): string {
  const [connector, side] = half(connectorId, halfId);
  const contents = cavityContents(harness, connector, side);
  return faceSvg(connectorFace(connector, side, view), (id) =>
    (contents.get(id)?.wires ?? []).map((wire) => wire.mark.letters).join("+"),
  );
}

const rail = findBetween(harness, [thing("A1.X1:36"), thing("B3.X:3")]);
if (rail.kind !== "found") throw new Error("The rail sensor signal has no path");

test.each([
  ["face-a1-x1-wire-side", face("A1.X1", "harness", "wire-side")],
  ["face-a1-x1-mating-side", face("A1.X1", "harness", "mating-side")],
  ["face-xd1-mating-side", face("XD1", "harness", "mating-side")],
  [
    "strip-rail-signal",
    stripSvg(
      pathStrip(
        harness,
        rail.path.map((item) => describeItem(harness, item)),
        rail.mustPass.map((item) => item.id),
      ),
    ),
  ],
  ["machine", layoutSvg(layoutHarness(harness), litBundles(harness, ["W71", "W72", "W78", "W79", "W89"]))],
])("the picture %s is as it was", async (name, text) => {
  await expect(text).toMatchFileSnapshot(`pictures/${name}.svg`);
});
