import { describe, expect, test } from "vitest";
import {
  HAND_METER,
  meterLimit,
  readMeter,
  type Fault,
  type Probe,
  type Reading,
  type OperatingConditions,
} from "ohmward/simulation";
import { fitDemo, openDemo } from "../../demo-harness/open-demo.ts";
import { battery, smallMachine } from "../support/small-machine.ts";

const base = fitDemo(openDemo(), "base");

const read = (operatingConditions: OperatingConditions, probe: Probe): Reading =>
  readMeter(base, { operatingConditions, probe });
const codes = (reading: Reading): readonly string[] =>
  "because" in reading ? reading.because.map(({ code }) => code) : [];
const open = (of: string): Fault => ({ kind: "open", of });

function valueOf(reading: Reading): Extract<Reading, { kind: "value" }> {
  if (reading.kind !== "value") throw new Error(JSON.stringify(reading));
  return reading;
}

describe("meterLimit()", () => {
  // Source: instrument manuals: +-(1 % + 2) at 100.0 V is 98.8 to 101.2, +-(2 % + 2) is 97.8 to 102.2. Confidence high.
  test.each([
    [1, 1.2],
    [2, 2.2],
  ])("+-(%i %% + 2 counts) at 100.0 V", (percent, wanted) => {
    expect(meterLimit({ percent, counts: 2, ranges: [[600, 0.1]] }, 100)?.limit).toBeCloseTo(wanted, 12);
  });

  test("has a smaller count in a lower range, and none over the highest", () => {
    expect(meterLimit(HAND_METER.volts, -0.5)?.count).toBe(0.0001);
    expect(meterLimit(HAND_METER.volts, 12)?.count).toBe(0.01);
    expect(meterLimit(HAND_METER.volts, 601)).toBeUndefined();
  });
});

describe("dc-voltage", () => {
  test("have a band around the value that names what makes it wide", () => {
    const answer = valueOf(read({ state: "KOEO" }, { kind: "dc-voltage", red: "A1.X2:1", black: "G2-" }));
    expect(answer.unit).toBe("V");
    // The supply is taken as good to 0.25 V, the meter to 0.083 V at 12.6 V.
    expect(answer.high - answer.value).toBeGreaterThan(0.25);
    expect(answer.high - answer.value).toBeLessThan(0.25 + 0.083);
    expect(answer.value - answer.low).toBeCloseTo(answer.high - answer.value, 12);
    expect(codes(answer)).toEqual(["supply", "meter"]);
  });

  test("have a band that holds every machine whose parts are inside their limits one at a time", () => {
    const probe = { kind: "dc-voltage", red: "B5.X:1", black: "B5.X:2" } as const;
    const { value, low, high } = valueOf(read({ state: "KOEO" }, probe));
    for (const of of ["B5.ntc", "A1.pull-39", "A1.reg-logic"]) {
      for (const factor of [0.95, 1.05]) {
        const faulty = valueOf(
          read({ state: "KOEO", faults: [{ kind: "drift", of, factor, offset: 0 }] }, probe),
        ).value;
        expect(faulty).toBeGreaterThan(low);
        expect(faulty).toBeLessThan(high);
        expect(Math.abs(faulty - value)).toBeGreaterThan(0.05);
      }
    }
  });

  test("change their sign with the leads and are nothing from a point to itself", () => {
    const forth = valueOf(read({ state: "KOEO" }, { kind: "dc-voltage", red: "A1.X2:1", black: "G2-" }));
    const back = valueOf(read({ state: "KOEO" }, { kind: "dc-voltage", red: "G2-", black: "A1.X2:1" }));
    expect(back.value).toBe(-forth.value);
    expect(valueOf(read({ state: "KOEO" }, { kind: "dc-voltage", red: "SP11", black: "SP11" })).value).toBe(0);
  });

  test("tell floating apart from zero, and name the island", () => {
    const probe = { kind: "dc-voltage", red: "XF1e:2", black: "G2-" } as const;
    const answer = read({ state: "KOEO", faults: [open("XF1:1")] }, probe);
    expect(answer).toMatchObject({ kind: "floating", island: "A1.X1.device:49" });
    expect(codes(answer)).toEqual(["floating"]);
    expect(read({ state: "KOEO" }, { ...probe, red: "GND-C1" }).kind).toBe("value");
  });

  test("say in which states they hold", () => {
    const probe = { kind: "dc-voltage", red: "G2+", black: "G2-" } as const;
    expect(read({ state: "KOEO" }, probe).holdsIn).toEqual(["OFF", "KOEO", "PRIME"]);
    expect(read({ state: "CRANK" }, probe).holdsIn).toEqual(["CRANK"]);
    expect(readMeter(base, { operatingConditions: { state: "KOEO" }, probe, compareWith: [] }).holdsIn).toEqual([]);
  });

  test("behind a diode are what the meter's own current leaves, not a made-up number", () => {
    const diode = { id: "d", kind: "diode", between: ["P", "A"], forwardVolt: 0.7, resistanceOhm: 1 };
    const harness = smallMachine({
      terminalStuds: ["P", "N", "A"],
      components: [battery, { id: "X", elements: [diode] }],
    });
    const answer = valueOf(
      readMeter(harness, { operatingConditions: {}, probe: { kind: "dc-voltage", red: "A", black: "N" } }),
    );
    expect(answer.value).toBeCloseTo(11.3, 5);
    // The real voltage of a junction may be 0.3 V off the piecewise one.
    expect(answer.high - answer.value).toBeGreaterThan(0.3);
  });
});

describe("a drop", () => {
  test("names the current it is read under", () => {
    const answer = valueOf(read({ state: "CRANK" }, { kind: "voltage-drop", red: "A3.X1:5", black: "M1.50" }));
    expect(answer.because.find(({ code }) => code === "current")?.text).toContain("9.04 A");
  });

  test("without load says that it proves nothing", () => {
    const answer = read({ state: "KOEO" }, { kind: "voltage-drop", red: "A3.X1:5", black: "M1.50" });
    expect(valueOf(answer).value).toBe(0);
    expect(codes(answer)).toContain("no-load");
  });
});

describe("resistance", () => {
  const bus = { kind: "resistance", red: "XD1:C", black: "XD1:D" } as const;

  test("are refused on a live circuit, with what to disconnect", () => {
    for (const state of ["KOEO", "RUN"]) {
      const answer = read({ state }, bus);
      expect(answer).toMatchObject({ kind: "refused", because: [{ code: "live" }] });
      const list = answer.kind === "refused" ? answer.disconnect.join("\n") : "";
      expect(list).toContain("G2");
      expect(list).toContain("disconnect A1.X1 and A1.X2");
    }
  });

  test("are refused across the open isolator, where the battery stands between the tips", () => {
    const answer = read({ state: "OFF" }, { kind: "resistance", red: "S10.1", black: "S10.2" });
    expect(answer.kind === "refused" && answer.disconnect.join()).toContain("G2");
  });

  test("of an unplugged part are allowed in any state: it is dead and isolated", () => {
    const probe = { kind: "resistance", red: "B1.X.device:1", black: "B1.X.device:2" } as const;
    const answer = valueOf(read({ state: "KOEO", unplugged: ["B1.X"] }, probe));
    expect(answer.value).toBeCloseTo(900, 9);
    // 10 % of the part.
    expect(answer.low).toBeLessThan(812);
    expect(answer.low).toBeGreaterThan(800);
    expect(answer.holdsIn).toEqual(["OFF", "KOEO", "PRIME", "HEAT", "CRANK", "RUN"]);
  });

  test("count every parallel way, and the leads unless they were taken off", () => {
    expect(valueOf(read({ state: "OFF" }, bus)).value).toBeCloseTo(59.87, 2);
    const leads = { ohm: 0.4, subtracted: false };
    expect(valueOf(read({ state: "OFF" }, { ...bus, leads })).value).toBeCloseTo(60.27, 2);
  });

  test("below half an ohm are no evidence, and the drop to read instead is named", () => {
    const way = { kind: "resistance", red: "A3.X1:5", black: "M1.50" } as const;
    // XE1:1 corroded: 0.25 ohm starve the starter, and an ohmmeter passes it.
    for (const faults of [[], [{ kind: "high-resistance", of: "XE1:1", ohm: 0.25 } as const]]) {
      const answer = valueOf(read({ state: "OFF", faults }, way));
      const hint = answer.because.find(({ code }) => code === "ohms-no-evidence");
      expect(hint?.text).toContain("voltage drop from A3.X1:5 to M1.50");
    }
  });

  test("over range is not zero and not a number", () => {
    const answer = read(
      { state: "OFF", faults: [open("W44")], unplugged: ["RT1.X", "A1.X2"] },
      {
        kind: "resistance",
        red: "RT1.X.harness:1",
        black: "RT1.X.harness:2",
      },
    );
    expect(answer).toMatchObject({ kind: "overload", unit: "Ω" });
  });
});

describe("a clamp", () => {
  test("shows the current of one wire, with the sign of its direction", () => {
    const start = valueOf(read({ state: "CRANK" }, { kind: "dc-current", wire: "W28" }));
    // 9.943 V across the hold-in coil of 1.1 ohm.
    expect(start.value).toBeCloseTo(9.943 / 1.1, 3);
    expect(valueOf(read({ state: "CRANK" }, { kind: "dc-current", wire: "C05" })).value).toBeLessThan(-300);
    expect(valueOf(read({ state: "KOEO", faults: [open("W28")] }, { kind: "dc-current", wire: "W28" })).value).toBe(0);
  });

  test("in two wires side by side shows the sum of the currents in the wire before them", () => {
    const [all = 0, first = 0, second = 0] = ["W01", "W02", "W03"].map(
      (wire) => valueOf(read({ state: "RUN" }, { kind: "dc-current", wire })).value,
    );
    expect(all).toBeCloseTo(first + second, 6);
  });

  test("says so where a wire's share cannot be told for want of data", () => {
    const load = { id: "r", kind: "load", between: ["A", "N"], resistanceOhm: 6 };
    const wires = ["W1", "W2"].map((id) => ({ id, ends: ["P", "A"] }));
    const harness = smallMachine({
      terminalStuds: ["P", "N", "A"],
      wires,
      components: [battery, { id: "X", elements: [load] }],
    });
    const probe = { kind: "dc-current", wire: "W1" } as const;
    expect(readMeter(harness, { operatingConditions: {}, probe })).toMatchObject({
      kind: "refused",
      because: [{ code: "no-figure" }],
    });
    const one = smallMachine({
      terminalStuds: ["P", "N", "A"],
      wires: wires.slice(0, 1),
      components: [battery, { id: "X", elements: [load] }],
    });
    expect(valueOf(readMeter(one, { operatingConditions: {}, probe })).value).toBeCloseTo(2, 12);
  });
});

describe("a loaded test", () => {
  test("finds the bad joint that a voltmeter alone passes", () => {
    const faults: Fault[] = [{ kind: "high-resistance", of: "M2.X:1", ohm: 20 }];
    const probe = { red: "M2.X.device:1", black: "GND-C1" } as const;
    const unplugged = { state: "PRIME", faults: [...faults, open("M2.motor")] };
    expect(valueOf(read(unplugged, { kind: "dc-voltage", ...probe })).value).toBeGreaterThan(12.5);
    const loaded = valueOf(read(unplugged, { kind: "loaded", ...probe }));
    expect(loaded.value).toBeLessThan(4);
    expect(loaded.because.map(({ text }) => text).join()).toContain("21 W test lamp");
  });
});

describe("a duty reading", () => {
  test("is the share of the time the red lead is high", () => {
    // The fan driver pulls low 40 % of the time in RUN.
    const answer = valueOf(read({ state: "RUN" }, { kind: "duty-cycle", red: "XF1e:2", black: "GND-E1" }));
    expect(answer).toMatchObject({ unit: "%", value: 60 });
  });

  test("is refused where nothing pulses", () => {
    expect(read({ state: "KOEO" }, { kind: "duty-cycle", red: "XF1e:2", black: "GND-E1" }).kind).toBe("refused");
  });
});

describe("questions that have no answer", () => {
  test.each<readonly [string, OperatingConditions, Probe, string]>([
    [
      "a state the machine has not",
      { state: "FLYING" },
      { kind: "dc-voltage", red: "G2+", black: "G2-" },
      "unknown-state",
    ],
    ["a point it has not", {}, { kind: "dc-voltage", red: "Q1:1", black: "G2-" }, "unknown-target"],
    ["a point of another build", {}, { kind: "dc-voltage", red: "Y9.X:1", black: "G2-" }, "not-fitted"],
    ["a wire it has not", {}, { kind: "dc-current", wire: "W999" }, "unknown-target"],
    [
      "a connector it has not",
      { unplugged: ["Q1"] },
      { kind: "dc-voltage", red: "G2+", black: "G2-" },
      "unknown-connector",
    ],
    [
      "an adapter it has not",
      { adapters: ["Q1"] },
      { kind: "dc-voltage", red: "G2+", black: "G2-" },
      "unknown-adapter",
    ],
    [
      "a setting of nothing",
      { settings: [{ of: "Q1.x", is: "on" }] },
      { kind: "dc-voltage", red: "G2+", black: "G2-" },
      "unknown-target",
    ],
    [
      "a temperature of nowhere",
      { temperatureC: 900 },
      { kind: "dc-voltage", red: "G2+", black: "G2-" },
      "out-of-range",
    ],
  ])("%s", (_name, operatingConditions, probe, code) => {
    const answer = read(operatingConditions, probe);
    expect(answer.kind === "wrong-question" && answer.problems.map((problem) => problem.code)).toEqual([code]);
  });

  test("a machine that does not settle says what keeps changing", () => {
    const faults: Fault[] = [{ kind: "high-resistance", of: "C01", ohm: 0.1 }];
    const answer = read({ state: "CRANK", faults }, { kind: "dc-voltage", red: "G2+", black: "G2-" });
    expect(answer).toMatchObject({ kind: "no-steady-state" });
    expect(answer.kind === "no-steady-state" && answer.noOperatingPoint).toContain("M1.hold");
  });
});

test("an adapter in line adds a second contact, nothing else", () => {
  const probe = { kind: "resistance", red: "XE1m:1", black: "XE1e:1" } as const;
  expect(valueOf(read({ state: "OFF" }, probe)).value).toBeCloseTo(0.001, 9);
  const rail = { kind: "resistance", red: "B3.X.harness:3", black: "B3.X.device:3" } as const;
  expect(valueOf(read({ state: "OFF" }, rail)).value).toBeCloseTo(0.01, 4);
  expect(valueOf(read({ state: "OFF", adapters: ["TL-3-0.64"] }, rail)).value).toBeCloseTo(0.02, 4);
});
