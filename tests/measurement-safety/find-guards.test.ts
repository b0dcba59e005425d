import { describe, expect, test } from "vitest";
import type { Harness } from "ohmward/harness-model";
import { findProbePoints, isContactPermitted, METHODS, type Meter, type Method } from "ohmward/measurement-safety";
import { resolve } from "ohmward/connectivity";
import { airbagMachine, type Wire } from "./airbag-machine.ts";

const METERS: readonly Meter[] = ["dc-voltage", "resistance", "clamp", "test-lamp"];

/** Everything that is permitted at some points and wires, by any method and meter in any state. */
function permitted(harness: Harness, points: readonly string[]): readonly string[] {
  const found: string[] = [];
  for (const state of harness.document.states)
    for (const point of points)
      for (const method of Object.keys(METHODS) as Method[])
        for (const meter of METERS)
          if (isContactPermitted(harness, state, { point, method, meter }).kind === "permitted")
            found.push(`${state.id} ${method} ${meter} ${point}`);
  return found;
}

function reasonAt(harness: Harness, what: string): string {
  const found = resolve(harness, what);
  const state = harness.document.states[0];
  if (found.kind !== "one" || !state) throw new Error(what);
  const { points, refused } = findProbePoints(harness, found.item, state);
  expect(points).toEqual([]);
  return refused.map(({ reason }) => reason).join(" ");
}

const LOOPS = ["1", "2", "3", "4", "5", "6"];
const pins = (connector: string, count: number): readonly string[] =>
  Array.from({ length: count }, (_, at) => [`${connector}.harness:${at + 1}`, `${connector}.device:${at + 1}`]).flat();

describe("an airbag system of which one name tells", () => {
  const machine = airbagMachine();

  test("offers no contact on any line of it, by any method, in any state", () => {
    const points = [...LOOPS, ...pins("CC.X1", 2), ...pins("CC.X2", 2), ...pins("SQ.X", 2), ...pins("BT.X", 2)];
    expect(permitted(machine, [...points, ...pins("A7.X", 6)])).toEqual([]);
  });

  test("says why: the name, what lies between, and the maker's procedure", () => {
    expect(reasonAt(machine, "SQ.X:1")).toMatch(/maker's procedure.*part SQ reads "driver_Airbag"/su);
    expect(reasonAt(machine, "A7.X:1")).toContain("only CC.a is between it and such a line");
  });

  test("leaves the lamp and the supply alone", () => {
    expect(permitted(machine, ["10", ...pins("LA.X", 2), "BATT", "GND"]).length).toBeGreaterThan(8);
  });
});

describe("the feed of a named control unit", () => {
  const named = airbagMachine([], {
    nets: [
      { id: "30", kind: "battery-power" },
      { id: "F9", kind: "supply" },
      { id: "F10", kind: "supply" },
      { id: "31", kind: "ground" },
    ],
    components: airbagMachine().document.components.map((each) =>
      each.id === "A7" ? { ...each, label: "SRS module" } : each,
    ),
  });

  test("is guarded from its fuse on, although its net is told to be a supply, and its ground only at the unit", () => {
    expect(permitted(named, ["7", ...pins("A7.X", 6)])).toEqual([]);
    expect(permitted(named, ["9", "10", "BATT", "GND"]).length).toBeGreaterThan(8);
    // The connector of the fuse box also holds the feed, so its other pins are not touched either; the windows of the other fuse are.
    expect(permitted(named, pins("FB.X", 3)).filter((each) => !each.includes("fuse-window"))).toEqual([]);
  });
});

describe("what lifts a guard", () => {
  const wires: readonly Wire[] = [{ id: "10", ends: ["FB.X:3", "LA.X:1"], note: "was the airbag lamp line" }];

  test("only a person's declaration with name and date, never the document's silence", () => {
    expect(permitted(airbagMachine(wires), ["10"])).toEqual([]);
    const statements = [{ about: "10", what: "harmless", by: "R. Tester", on: "2026-02-03", reason: "old note" }];
    expect(permitted(airbagMachine(wires, { statements }), ["10"])).not.toEqual([]);
  });

  test("a declaration does not lift what the document itself states", () => {
    const statements = [{ about: "10", what: "harmless", by: "R. Tester", on: "2026-02-03" }];
    const stated = airbagMachine([], {
      statements,
      nets: [{ id: "F10", kind: "airbag" }, { id: "F9" }, { id: "30" }, { id: "31" }],
    });
    expect(permitted(stated, ["10"])).toEqual([]);
  });
});

describe("high voltage", () => {
  test("a source above 60 V guards its lines whatever they are called (voltage class B, ISO 6469-3, from memory)", () => {
    const base = airbagMachine().document;
    const source = { id: "cells", kind: "source", role: "battery", between: ["LA.X:1", "GND"], resistanceOhm: 0.1 };
    const withSource = (voltageVolt: number): Harness =>
      airbagMachine([], {
        components: base.components.map((each) =>
          each.id === "LA" ? { ...each, kind: "battery", elements: [{ ...source, voltageVolt }] } : each,
        ),
      });
    expect(permitted(withSource(350), ["10"])).toEqual([]);
    expect(permitted(withSource(24), ["10"])).not.toEqual([]);
  });
});
