import { describe, expect, test } from "vitest";
import {
  areOhmsKnown,
  readingsAlong,
  readingTable,
  readMeter,
  reduceList,
  settle,
  TABLE_KINDS,
  type Fault,
  type PartList,
  type OperatingPoint,
  type TablePair,
} from "ohmward/simulation";
import { fitBuild, openHarness } from "ohmward/harness-model";
import { fitDemo, openDemo } from "../../demo-harness/open-demo.ts";
import { generateHarness } from "../../generate/generate-harness.ts";
import { changedReadings } from "../support/changed-readings.ts";
import { circuitTable } from "../support/circuit-table.ts";
import { pointNumber, operatingPointIn } from "../support/small-machine.ts";

const base = fitDemo(openDemo(), "base");
const states = ["OFF", "KOEO", "HEAT", "CRANK", "RUN"];
const corroded: Fault = { kind: "high-resistance", of: "XE1:1", ohm: 0.25 };

const numbersOf = (names: readonly string[]): readonly number[] => {
  const operatingPoint = operatingPointIn(base, { state: "KOEO" });
  return names.map((name) => {
    const number = pointNumber(base, operatingPoint, name);
    if (number === undefined) throw new Error(name);
    return number;
  });
};

describe("readingsAlong()", () => {
  const way = ["A3.X1.device:5", "A3.X1:5", "XE1m:1", "XE1e:1", "M1.50"];

  test("gives the volts at each stop and what is lost between two", () => {
    const answer = readingsAlong(
      base,
      { state: "CRANK", faults: [corroded] },
      { nodes: numbersOf(way), reference: "GND-E1" },
    );
    if (answer.kind !== "readings") throw new Error(answer.kind);
    expect(answer.stops.map(({ point }) => point)).toEqual(
      way.map((name) => (name === "A3.X1:5" ? "A3.X1.harness:5" : name)),
    );
    const drops = answer.stops.map(({ dropVolt }) => dropVolt);
    expect(drops[0]).toBeUndefined();
    // Hold-in current of 7.41 A through 0.25 + 0.001 ohm (8.15 V over 1.1 ohm, worked out apart from this project).
    expect(drops[3]).toBeCloseTo(7.41 * 0.251, 1);
    const first = answer.stops[0]?.at;
    const last = answer.stops.at(-1)?.at;
    if (first?.kind !== "dc-voltage" || last?.kind !== "dc-voltage") throw new Error("floating");
    expect(drops.reduce<number>((sum, drop) => sum + (drop ?? 0), 0)).toBeCloseTo(first.volt - last.volt, 12);
    expect(last.volt).toBeCloseTo(8.15, 1);
  });

  test("has no drop next to a floating stop", () => {
    const answer = readingsAlong(
      base,
      { state: "KOEO", faults: [{ kind: "blown", of: "A3.F8" }] },
      { nodes: numbersOf(["G2+", "XF1e:1", "XF1e:2"]) },
    );
    if (answer.kind !== "readings") throw new Error(answer.kind);
    expect(answer.stops.map(({ at }) => at.kind)).toEqual(["dc-voltage", "floating", "floating"]);
    expect(answer.stops.map(({ dropVolt }) => dropVolt)).toEqual([undefined, undefined, undefined]);
  });

  test("passes on what is wrong with the question", () => {
    expect(readingsAlong(base, { state: "KOEO" }, { nodes: [], reference: "NOWHERE" })).toMatchObject({
      kind: "wrong-question",
    });
    expect(readingsAlong(base, { state: "NEVER" }, { nodes: [] })).toMatchObject({ kind: "wrong-question" });
  });
});

test("circuitTable() has a column for each state", () => {
  const table = circuitTable(base, { nodes: numbersOf(["G2+", "A1.X2:1"]) });
  expect(table.map(({ state }) => state)).toEqual(["OFF", "KOEO", "PRIME", "HEAT", "CRANK", "RUN"]);
  const volts = table.map(({ answer }) =>
    answer.kind === "readings"
      ? answer.stops.map(({ at }) => (at.kind === "dc-voltage" ? Math.round(at.volt * 10) / 10 : at.kind))
      : [],
  );
  expect(volts).toEqual([
    [12.7, 0],
    [12.6, 12.6],
    [12.6, 12.6],
    [12.1, 12],
    [10.5, 10.3],
    [14.1, 14],
  ]);
});

describe("changedReadings()", () => {
  const probes = ["A3.X1:5", "XE1e:1", "M1.50", "S1.X:15", "G2+"].map(
    (red) => ({ kind: "dc-voltage", red, black: "GND-E1" }) as const,
  );

  test("lists what a meter can tell, with both readings", () => {
    const changed = changedReadings(base, { operatingConditions: { state: "CRANK" }, faults: [corroded], probes });
    expect(changed.map(({ probe }) => "red" in probe && probe.red)).toEqual(["XE1e:1", "M1.50"]);
    const [first] = changed;
    expect(first?.normal.kind === "value" && first.normal.value).toBeCloseTo(10.0, 1);
    expect(first?.faulty.kind === "value" && first.faulty.value).toBeCloseTo(8.2, 1);
  });

  test("is empty without faults, and has a point that begins to float", () => {
    expect(changedReadings(base, { operatingConditions: { state: "CRANK" }, faults: [], probes })).toEqual([]);
    const fan = [{ kind: "dc-voltage", red: "XF1e:2", black: "G2-" } as const];
    const [only] = changedReadings(base, {
      operatingConditions: { state: "KOEO" },
      faults: [{ kind: "open", of: "XF1:1" }],
      probes: fan,
    });
    expect(only?.faulty.kind).toBe("floating");
  });
});

describe("readingTable()", () => {
  const faultSets: readonly (readonly Fault[])[] = [
    [],
    [{ kind: "open", of: "W78" }],
    [{ kind: "short", of: "W74", to: "GND-E1", ohm: 0.5 }],
    [corroded, { kind: "open", of: "W81" }],
    [{ kind: "open", of: "XF1:1" }],
    [{ kind: "cross-wired", cavities: ["XF1p:3", "XF1p:4"] }],
    [{ kind: "unplugged", of: "RT1.X" }],
    [{ kind: "stuck-on", of: "A1.drv-fan" }],
    [{ kind: "open", of: "W999" }],
  ];
  const pairs: readonly TablePair[] = [
    ...["A1.X1:1", "A1.X1:36", "A1.X1:39", "XF1e:2", "M1.50", "XD1:C"].map((red): TablePair => ({
      kind: "dc-voltage",
      red,
      black: "G2-",
    })),
    { kind: "resistance", red: "XD1:C", black: "XD1:D" },
    { kind: "resistance", red: "B1.X:1", black: "B1.X:2" },
  ];
  const question = { operatingConditions: {}, states, faultSets, pairs };
  const table = readingTable(base, question);

  test("has in every cell what readMeter() says", () => {
    states.forEach((state, s) => {
      faultSets.forEach((faults, f) => {
        pairs.forEach((probe, p) => {
          const at = (s * faultSets.length + f) * pairs.length + p;
          const wanted = readMeter(base, { operatingConditions: { state, faults }, probe, compareWith: [] });
          expect(`${state} ${f} ${p} ${TABLE_KINDS[table.kinds[at] ?? 0]}`).toBe(`${state} ${f} ${p} ${wanted.kind}`);
          if (wanted.kind === "value") expect(Math.abs((table.values[at] ?? 0) - wanted.value)).toBeLessThan(1e-8);
        });
      });
    });
  });

  test("is the same with everything outside the circuit reduced", () => {
    const reduced = readingTable(base, { ...question, reduceAbove: 0 });
    expect([...reduced.kinds]).toEqual([...table.kinds]);
    reduced.values.forEach((value, at) => {
      expect(Math.abs(value - (table.values[at] ?? 0))).toBeLessThan(1e-8);
    });
  });
});

describe("reduceList()", () => {
  const expectSame = (whole: OperatingPoint, numbers: readonly number[]): PartList => {
    const small = settle(reduceList(whole, numbers));
    if (small.kind !== "settled") throw new Error(small.kind);
    for (const number of numbers) {
      const at = small.list.nodeKeys.indexOf(whole.list.nodeKeys[number] ?? "");
      const isTied = whole.solved.islands[number] === whole.solved.islands[whole.list.reference];
      expect(small.solved.islands[at] === small.solved.islands[small.list.reference]).toBe(isTied);
      if (isTied)
        expect(Math.abs((small.solved.volts[at] ?? 0) - (whole.solved.volts[number] ?? 0))).toBeLessThan(1e-9);
    }
    return small.list;
  };

  test.each(states)("leaves the voltages of a circuit of the demo machine as they are, in %s", (state) => {
    const whole = operatingPointIn(base, { state });
    const names = ["A1.X1:39", "B5.X:1", "SP13", "M1.50", "XD1:C"];
    const small = expectSame(
      whole,
      names.map((name) => pointNumber(base, whole, name) ?? -1),
    );
    expect(small.parts.length).toBeLessThan(whole.list.parts.length);
  });

  test.each([
    ["the feed of a control unit to its ground", "A1.X2:1", "A1.X2:13", false],
    ["a line of sensors to ground", "A1.X1:39", "GND-E1", false],
    ["the bus", "XD1:C", "XD1:D", true],
  ])("knows what hides outside a circuit: %s", (_name, red, black, wanted) => {
    const whole = operatingPointIn(base, { state: "OFF" });
    const pair = [red, black].map((name) => pointNumber(base, whole, name) ?? -1);
    const small = settle(reduceList(whole, pair));
    if (small.kind !== "settled") throw new Error(small.kind);
    const [a = -1, b = -1] = pair.map((node) => small.list.nodeKeys.indexOf(whole.list.nodeKeys[node] ?? ""));
    expect([areOhmsKnown(whole, pair[0] ?? -1, pair[1] ?? -1), areOhmsKnown(small, a, b)]).toEqual([wanted, wanted]);
  });

  test("leaves those of a circuit of a harness of 2000 wires as they are, on a twentieth of its parts", () => {
    const opened = openHarness(JSON.stringify(generateHarness({ seed: 45, wires: 2000 })));
    const big = opened.ok ? fitBuild(opened.value.document, "full") : undefined;
    if (!big) throw new Error("the generated harness has problems");
    for (const state of ["ISOLATED", "KEY-ON", "RUN"]) {
      const whole = operatingPointIn(big, { state });
      const some = [...big.nodes.entries()]
        .filter(([, node]) => /^[BY]7\.X1/u.test(node.key))
        .map(([number]) => number);
      expect(some.length).toBeGreaterThan(4);
      expect(expectSame(whole, some).parts.length).toBeLessThan(whole.list.parts.length / 20);
    }
  });
});
