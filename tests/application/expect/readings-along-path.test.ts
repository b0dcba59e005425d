import { ask, checkFaults, leadReach, readingsAlongPath, type PathReading } from "ohmward/application";
import { describe, expect, test } from "vitest";
import { demo } from "../demo-machine.ts";

const setting = { build: "base", state: "CRANK" };

/** The way of the starter circuit from the supply to the ground. */
function starterWay(): readonly { readonly type: PathReading["item"]["type"]; readonly id: string }[] {
  const traced = ask(demo, setting, { kind: "circuit", point: "XE1:1" });
  if (traced.kind !== "circuit") throw new Error(traced.kind);
  const [circuit] = traced.circuits;
  if (!circuit) throw new Error("no circuit");
  const way = (role: string) => circuit.sides.find((side) => side.role === role)?.ways[0] ?? [];
  return [...way("supply").toReversed(), circuit.serves, ...way("ground")];
}

function stopsWith(faults: readonly string[]): readonly PathReading[] {
  const read = readingsAlongPath(demo, setting, { path: starterWay(), conditions: { faults } });
  if (read.kind !== "readings") throw new Error(read.text);
  return read.stops;
}

function stop(stops: readonly PathReading[], id: string): PathReading {
  const found = stops.find(({ item }) => item.id === id);
  if (!found) throw new Error(`"${id}" is not on the way`);
  return found;
}

describe("readingsAlongPath()", () => {
  test("gives the voltages of the starter chain while cranking", () => {
    // demo-harness/expected.json, worked out apart from this program: 10.28 V at A3.X1:5, 10.20 V at XE1:1 while cranking.
    const stops = stopsWith([]);
    expect(stop(stops, "A3.X1:5").now.outVolt).toBeCloseTo(10.28, 1);
    expect(stop(stops, "XE1:1").now.inVolt).toBeCloseTo(10.2, 1);
    expect(stops.every(({ normal }) => normal === undefined)).toBe(true);
  });

  test("the drops of the way add up to the voltage of the battery: Kirchhoff's law of voltages", () => {
    const stops = stopsWith([]);
    const sum = stops.reduce((total, { now }) => total + (now.dropVolt ?? 0), 0);
    expect(sum).toBeCloseTo((stops[0]?.now.inVolt ?? 0) - (stops.at(-1)?.now.outVolt ?? 0), 9);
    expect(stops.at(-1)?.now.outVolt).toBeCloseTo(0, 9);
    for (const [at, { now }] of stops.entries()) {
      const next = stops[at + 1];
      if (next) expect(now.outVolt).toBeCloseTo(next.now.inVolt ?? Number.NaN, 9);
    }
  });

  test("with a bad contact shows the drop in it, and what the healthy machine has", () => {
    // demo-harness/expected.json, fault X02: XE1e:1 falls from 10.20 V to 8.39 V.
    const bad = stop(stopsWith(["high-resistance:XE1:1=0.25"]), "XE1:1");
    expect(bad.isChanged).toBe(true);
    expect(bad.now.outVolt).toBeCloseTo(8.39, 1);
    expect(bad.normal?.outVolt).toBeCloseTo(10.2, 1);
    expect(bad.now.dropVolt).toBeGreaterThan(1.7);
  });

  test("says floating behind an open, never 0 V, and names what cannot be read", () => {
    const way = starterWay().filter(({ id }) => ["W28", "XE1:1"].includes(id));
    const off = readingsAlongPath(
      demo,
      { build: "base", state: "OFF" },
      { path: way, conditions: { faults: ["open:W28", "open:W29"] } },
    );
    expect(off.kind === "readings" && stop(off.stops, "XE1:1").now).toEqual({
      kind: "floating",
      inVolt: null,
      outVolt: null,
      dropVolt: null,
    });
    const wrong = readingsAlongPath(demo, setting, { path: way, conditions: { faults: ["rust:W28"] } });
    expect(wrong).toMatchObject({ kind: "no-readings" });
  });
});

describe("checkFaults()", () => {
  test("puts faults into words, one by one, and says what is wrong with the others", () => {
    const [good, bad] = checkFaults(demo, setting, ["resistance:xe1:1=0.25", "high-resistance:XE1:1"]);
    expect(good).toMatchObject({
      kind: "understood",
      text: "high-resistance:XE1:1=0.25",
      label: "0.25 Ω more in XE1:1",
    });
    expect(bad).toMatchObject({ kind: "wrong" });
  });
});

describe("leadReach()", () => {
  test("judges a point as the answer to a reading does", () => {
    for (const [point, meter] of [
      ["G2+", "dc-voltage"],
      ["G2+", "resistance"],
      ["B3.X:3", "dc-voltage"],
      ["W28", "dc-current"],
    ] as const) {
      const state = { build: "base", state: "KOEO" };
      const black = meter === "dc-current" ? {} : { black: "G2-" };
      const answer = ask(demo, state, { kind: "expected", red: point, ...black, meter });
      if (!("leads" in answer)) throw new Error(answer.kind);
      expect(leadReach(demo, state, { point, meter })?.access).toBe(answer.leads[0]?.access);
    }
    expect(leadReach(demo, setting, { point: "B3", meter: "dc-voltage" })).toBeUndefined();
  });
});
