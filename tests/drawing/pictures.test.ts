import { connectorFace, cavityContents, layoutHarness, litBundles, pathStrip } from "ohmward/drawing";
import { describeItem, findPaths, resolve, type Resolved } from "ohmward/connectivity";
import { expect, test } from "vitest";
import { demo, demoSide } from "./demo.ts";
import { faceSvg, layoutSvg, stripSvg } from "./svg-text.ts";

function item(text: string): Resolved {
  const found = resolve(demo, text);
  if (found.kind !== "one") throw new Error(`"${text}" is ${found.kind}`);
  return found.item;
}

function face(connectorId: string, sideId: string, view: "wire-side" | "mating-side"): string {
  const [connector, side] = demoSide(connectorId, sideId);
  const contents = cavityContents(demo, connector, side);
  return faceSvg(connectorFace(connector, side, view), (id) =>
    (contents.get(id)?.wires ?? []).map((wire) => wire.mark.letters).join("+"),
  );
}

const rail = findPaths(demo, [item("A1.X1:36"), item("B3.X:3")]);
if (rail.kind !== "found") throw new Error("The rail sensor signal has no path");

test.each([
  ["face-a1-x1-wire-side", face("A1.X1", "harness", "wire-side")],
  ["face-a1-x1-mating-side", face("A1.X1", "harness", "mating-side")],
  ["face-xd1-mating-side", face("XD1", "harness", "mating-side")],
  [
    "strip-rail-signal",
    stripSvg(
      pathStrip(
        demo,
        rail.path.map((item) => describeItem(demo, item)),
        rail.mustPass.map((item) => item.id),
      ),
    ),
  ],
  ["machine", layoutSvg(layoutHarness(demo), litBundles(demo, ["W71", "W72", "W78", "W79", "W89"]))],
])("the picture %s is as it was", async (name, text) => {
  await expect(text).toMatchFileSnapshot(`pictures/${name}.svg`);
});
