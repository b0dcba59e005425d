import { describe, expect, test } from "vitest";
import { FIND_GROUPS, GROUP_TITLES } from "ohmward/application";
import { askDemo } from "./demo-machine.ts";

describe("groups of a search", () => {
  test.each([
    ["B3", "part"],
    ["FE111", "code"],
    ["W89", "wire"],
    ["CAN-H", "wire"],
    ["A1.X1", "connector"],
    ["A1.X1:36", "pin"],
    ["A3.F7", "fuse"],
    ["A3.K3-coil", "fuse"],
    ["K10", "fuse"],
    ["FL1", "fuse"],
    ["B3.cell", "part"],
    ["SP13", "splice"],
    ["GND-E1", "splice"],
    ["SG13", "segment"],
  ])("%s stands in the group %s", (id, group) => {
    const hit = askDemo("find", { kind: "find", text: id }).hits.find((each) => each.id === id);
    expect(hit?.group).toBe(group);
  });

  test("every group has a title", () => {
    for (const group of FIND_GROUPS) expect(GROUP_TITLES[group]).toMatch(/^[A-Z]/u);
  });
});
