import { describe, expect, it } from "vitest";
import { collectItems, describeItem, pathItems } from "ohmward/connectivity";
import { demo, ids, item } from "./ask-demo.ts";

const harness = demo();

describe("describeItem", () => {
  it("tells colour, size, length, route and ends of a wire", () => {
    expect(describeItem(harness, { type: "wire", id: "W89" })).toEqual({
      type: "wire",
      id: "W89",
      label: "WH/RD 0.5 mm²",
      colour: "WH/RD",
      colourName: "white with red stripe",
      crossSectionMm2: 0.5,
      lengthMm: 1060,
      net: "RAIL-P",
      harness: "engine",
      route: ["SG01", "SG02", "SG04", "SG07"],
      ends: ["A1.X1:36", "B3.X:3"],
    });
  });

  it("tells terminal size, seal and access of a contact", () => {
    expect(describeItem(harness, { type: "contact", id: "A1.X1:36" })).toMatchObject({
      terminalMm: 0.64,
      isSealed: true,
      minutes: 4,
      zone: "Z1",
      component: "A1",
    });
    expect(describeItem(harness, { type: "contact", id: "A1.X1:53" })).toMatchObject({ terminalMm: 1.5 });
    expect(describeItem(harness, { type: "contact", id: "XC1m:3" })).toMatchObject({ connector: "XC1", cavity: "3" });
  });

  it("tells where a splice sits", () => {
    expect(describeItem(harness, { type: "splice", id: "SP11" }).position).toBe("SG04, 100 mm from BP2");
  });

  it("has a label for every thing of the machine", () => {
    const all = collectItems(harness, { nodes: harness.nodes.keys(), edges: harness.edges.keys() });
    for (const item of all) expect(describeItem(harness, item).label).not.toBe("");
  });
});

describe("collectItems", () => {
  it("counts a mated pair once and a lone half as itself", () => {
    const joint = item(harness, "A1.X1:36");
    expect(collectItems(harness, { nodes: joint.groups.flat(), edges: joint.edges })).toEqual([
      { type: "contact", id: "A1.X1:36" },
    ]);
    expect(
      collectItems(harness, { nodes: joint.groups.flat(), edges: [] })
        .map((item) => item.id)
        .sort(),
    ).toEqual(["A1.X1.device:36", "A1.X1.harness:36"]);
  });
});

describe("pathItems", () => {
  it("names a half that is passed without its mate", () => {
    const wire = harness.edgeNumbers.get("W89") ?? -1;
    const nodes = [harness.nodeNumbers.get("A1.X1.harness:36") ?? -1, harness.nodeNumbers.get("B3.X.harness:3") ?? -1];
    expect(ids(pathItems(harness, { nodes, edges: [wire] }))).toEqual(["A1.X1.harness:36", "W89", "B3.X.harness:3"]);
  });
});
