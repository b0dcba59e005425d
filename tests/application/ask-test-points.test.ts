import { describe, expect, test } from "vitest";
import { askDemo } from "./demo-machine.ts";

describe("askProbe() on the demo machine", () => {
  test("gives points best first and refuses the back of the connector", () => {
    const answer = askDemo("test-points", { kind: "test-points", item: "A1.X1:36" }, { build: "base", state: "KOEO" });
    const classes = answer.points.map((point) => point.class);
    expect(classes.length).toBeGreaterThan(0);
    expect(classes).toEqual([...classes].sort());
    expect(answer.points.filter((point) => /back|pierce/u.test(point.method))).toEqual([]);
    expect(answer.refused.some((each) => each.method === "back-probe")).toBe(true);
    expect(answer.refused.every((each) => each.reason !== "" && each.source !== "")).toBe(true);
    expect(answer.state).toBe("KOEO");
  });

  test("says which state is taken where none is given", () => {
    const answer = askDemo("test-points", { kind: "test-points", item: "A1.X1:36" });
    expect(answer.assumptions.join(" ")).toMatch(/No state was given\. Assumed: OFF/u);
    const given = askDemo("test-points", { kind: "test-points", item: "A1.X1:36" }, { build: "base", state: "OFF" });
    expect(given.assumptions.join(" ")).not.toMatch(/No state/u);
    expect(given.points).toEqual(answer.points);
  });

  test("offers nothing on an injector line of a running engine but what touches no metal", () => {
    const answer = askDemo("test-points", { kind: "test-points", item: "W105" }, { build: "base", state: "RUN" });
    expect(answer.points.filter((point) => point.class !== "P0")).toEqual([]);
    expect(answer.refused.length).toBeGreaterThan(0);
  });

  test("says no twice of the same caution", () => {
    const { cautions } = askDemo("test-points", { kind: "test-points", item: "XT1" });
    expect(cautions).toEqual([...new Set(cautions)]);
  });
});
