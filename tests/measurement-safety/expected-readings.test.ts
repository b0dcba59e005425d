import { describe, expect, test } from "vitest";
import { demoText, fitDemo, openDemo } from "../demo-harness/open-demo.ts";
import { ask, pointIds } from "./ask.ts";

const base = fitDemo(openDemo(), "base");

describe("findProbePoints() measures every reading the demo machine is described with", () => {
  interface Reading {
    readonly state: string;
    readonly red: string;
    readonly black: string;
    readonly how: string;
    readonly adapter?: string;
  }
  const { readings, resistances } = JSON.parse(demoText("expected.json")) as {
    readings: readonly Reading[];
    resistances: readonly { readonly red: string; readonly black: string }[];
  };
  const methods: Record<string, readonly string[]> = {
    stud: ["tip", "clip"],
    adapter: ["in-line", "relay-extension"],
    "front-probe": ["front-probe"],
    "mating-adapter": ["mating-adapter"],
    screw: ["screw"],
  };

  test("there are readings", () => {
    expect(readings.length).toBeGreaterThan(30);
    expect(resistances.length).toBeGreaterThan(3);
  });

  test.each(readings)("$state $red", ({ state, red, how, adapter }) => {
    const fitting = ask(base, red, state).points.filter(
      (point) =>
        point.relation === "itself" &&
        point.meters.includes("dc-voltage") &&
        (methods[how] ?? []).includes(point.method) &&
        (adapter === undefined || point.adapter === adapter),
    );
    // The seat input is read at the seat switch, the pin of the same line that has an adapter.
    if (red === "A2.X1:7") expect(pointIds(ask(base, red, state))).toContain("in-line@S2.X.harness:1~TL-S2");
    else expect(fitting).not.toEqual([]);
  });

  test.each(readings)("black lead, $state $black", ({ state, black }) => {
    const points = ask(base, black, state).points.filter((point) => point.meters.includes("dc-voltage"));
    expect(points).not.toEqual([]);
  });

  test.each(resistances)("ohms $red to $black", ({ red, black }) => {
    for (const end of [red, black]) {
      const points = ask(base, end, "OFF").points.filter((point) => point.meters.includes("resistance"));
      expect(points.some((point) => point.relation === "itself")).toBe(true);
    }
  });
});
