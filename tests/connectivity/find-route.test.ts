import { describe, expect, it } from "vitest";
import { findRoute } from "ohmward/connectivity";
import { demo } from "./ask-demo.ts";

describe("findRoute", () => {
  const harness = demo();
  const edge = (id: string): number => harness.edgeNumbers.get(id) ?? -1;

  it("lists the segments of a wire in order, with zones and hazards", () => {
    const route = findRoute(harness, [edge("W89")]);
    expect(route.steps.map((step) => step.segment)).toEqual(["SG01", "SG02", "SG04", "SG07"]);
    expect(route.zones.map((zone) => zone.zone)).toEqual(["Z1", "Z2"]);
    expect(route.steps.at(-1)?.hazards.length).toBeGreaterThan(0);
    const sum = route.steps.reduce((total, step) => total + step.lengthMm, 0);
    expect(harness.fitted.wires.get("W89")?.lengthMm).toBe(sum + 60);
  });

  it("names wires whose way is not told", () => {
    expect(findRoute(harness, [edge("C01"), edge("W89")]).unrouted).toEqual(["C01"]);
  });

  it("lists a segment once with all wires of the part in it", () => {
    const route = findRoute(harness, [edge("W89"), edge("W72")]);
    const shared = route.steps.filter((step) => step.segment === "SG07");
    expect(shared.map((step) => step.wires)).toEqual([["W89", "W72"]]);
  });
});
