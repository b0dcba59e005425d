import { describe, expect, test } from "vitest";
import { parseFault, readMeter, solveCircuit, type Fault, type Probe, type Reading } from "ohmward/simulation";
import { fitDemo, openDemo } from "../../demo-harness/open-demo.ts";

// Each fault on the demo machine, with what Ohm's law and the wiring demand of it (own reasoning from the tables of the machine).

const document = openDemo();
const base = fitDemo(document, "base");
const tiller = fitDemo(document, "tiller");

const faultsOf = (...texts: readonly string[]): readonly Fault[] =>
  texts.map((text) => {
    const read = parseFault(text);
    if (!read.ok) throw new Error(read.error.text);
    return read.value;
  });

const read = (state: string, texts: readonly string[], probe: Probe, harness = base): Reading =>
  readMeter(harness, { operatingConditions: { state, faults: faultsOf(...texts) }, probe, compareWith: [] });

const volts = (state: string, texts: readonly string[], red: string, black = "G2-"): number => {
  const answer = read(state, texts, { kind: "dc-voltage", red, black });
  if (answer.kind !== "value") throw new Error(JSON.stringify(answer));
  return answer.value;
};

describe("a fault does what it says", () => {
  test.each<readonly [string, string, string, string, number, number]>([
    ["open:W92", "KOEO", "A1.X1:39", "A1.X1:17", 4.99, 5.01],
    ["open:B5.ntc", "KOEO", "A1.X1:39", "A1.X1:17", 4.99, 5.01],
    ["open:B5.X:1", "KOEO", "A1.X1:39", "A1.X1:17", 4.99, 5.01],
    ["open:B5.X.harness:1", "KOEO", "A1.X1:39", "A1.X1:17", 4.99, 5.01],
    ["open:W81@SP13", "KOEO", "A1.X1:39", "A1.X1:17", 4.99, 5.01],
    ["unplugged:B5.X", "KOEO", "A1.X1:39", "A1.X1:17", 4.99, 5.01],
    ["short:W92=GND-E1,0", "KOEO", "A1.X1:39", "G2-", -0.01, 0.02],
    ["short:W92=G2+,0", "KOEO", "A1.X1:39", "G2-", 12.5, 12.7],
    ["short:W92=W71,0", "KOEO", "A1.X1:39", "A1.X1:17", 4.9, 5.01],
    ["high-resistance:W92=2500", "KOEO", "A1.X1:39", "A1.X1:17", 3.47, 3.48],
    ["drift:B5.ntc=2", "KOEO", "A1.X1:39", "A1.X1:17", 3.47, 3.48],
    ["drift:B3.cell=1,0.2", "KOEO", "B3.X:3", "B3.X:2", 1.48, 1.51],
    ["drift:A1.reg-5v-a=0.8", "KOEO", "B3.X:1", "B3.X:2", 3.98, 4.0],
    ["blown:A3.F5", "KOEO", "A2.X1:2", "A2.X1:3", -0.01, 0.02],
    ["stuck-open:S5.contact", "KOEO", "A2.X1:1", "A2.X1:3", -0.01, 0.02],
    ["stuck-closed:S1.start", "KOEO", "XT1m:1", "G2-", 12.4, 12.7],
    ["stuck-on:A1.drv-fan", "KOEO", "XF1e:2", "G2-", 0.2, 0.5],
    ["stuck-off:A1.reg-5v-a", "KOEO", "B3.X:1", "B3.X:2", -0.001, 0.001],
    ["stuck-closed:A3.K1", "KOEO", "M1.50", "GND-E1", 9.5, 10.5],
    ["loose-terminal:W06@GND-C1=1", "KOEO", "A1.X2:13", "G2-", 1.1, 1.5],
    ["bridge:A1.X1:36=A1.X1:37,0", "KOEO", "A1.X1:36", "A1.X1:37", -0.01, 0.01],
  ])("%s in %s: %s to %s", (...[text, state, red, black, low, high]) => {
    const found = volts(state, [text], red, black);
    expect(found).toBeGreaterThanOrEqual(low);
    expect(found).toBeLessThanOrEqual(high);
  });

  test("a loose ring takes that wire only, not its neighbours on the stud", () => {
    const fault = ["loose-terminal:W06@GND-C1=1"];
    expect(volts("KOEO", fault, "W06@GND-C1", "GND-C1")).toBeGreaterThan(1);
    expect(volts("KOEO", fault, "W09@GND-C1", "GND-C1")).toBeLessThan(0.001);
  });

  test("a short stands where it is on the wire", () => {
    const at = (percent: number): number => {
      const probe = { kind: "resistance", red: "A1.X1:55", black: "GND-E1" } as const;
      const operatingConditions = {
        state: "OFF",
        unplugged: ["A1.X1"],
        faults: faultsOf(`short:W105=GND-E1,0,${percent}%`),
      };
      const answer = readMeter(base, { operatingConditions, probe });
      return answer.kind === "value" ? answer.value : Number.NaN;
    };
    // W105 has 13.70 mohm by the tables of the machine.
    expect(at(100) - at(0)).toBeCloseTo(0.0137, 4);
    expect(at(25) - at(0)).toBeCloseTo(0.0137 / 4, 5);
  });

  test("a broken wire that touches ground touches it with its first piece", () => {
    const both = ["open:W89", "short:W89=GND-E1,0"];
    expect(volts("KOEO", both, "A1.X1:36")).toBeLessThan(0.02);
    expect(volts("KOEO", both, "B3.X:3", "B3.X:2")).toBeGreaterThan(0.4);
  });

  test("several faults at once, in any order, give the same", () => {
    const some = ["short:W74=GND-E1,0.5", "high-resistance:XE1:1=0.25", "open:W81", "cross-wired:XF1p:3=XF1p:4"];
    const forth = ["A1.X1:1", "A1.X1:39", "XF1e:4"].map((red) => volts("KOEO", some, red));
    expect(["A1.X1:1", "A1.X1:39", "XF1e:4"].map((red) => volts("KOEO", some.toReversed(), red))).toEqual(forth);
  });

  test("an unplugged connector leaves both halves as they are", () => {
    const unplugged = ["unplugged:XC1"];
    expect(volts("KOEO", unplugged, "XC1m:1")).toBeGreaterThan(12.5);
    // The cab side of the key feed still hangs on the ignition input of the cab controller; the start chain hangs on nothing.
    expect(volts("KOEO", unplugged, "XC1c:1")).toBeCloseTo(0, 2);
    expect(read("KOEO", unplugged, { kind: "dc-voltage", red: "XC1c:3", black: "G2-" }).kind).toBe("floating");
  });

  test("a blown fuse leaves what is behind it floating, not at 0 V", () => {
    expect(read("KOEO", ["blown:A3.F8"], { kind: "dc-voltage", red: "XF1e:1", black: "G2-" })).toMatchObject({
      kind: "floating",
    });
  });

  test("a control unit without its supply is dead: no 5 V, no drivers", () => {
    for (const text of ["blown:A3.F1", "blown:A3.F2", "open:W07", "open:W06"]) {
      expect(Math.abs(volts("KOEO", [text], "B3.X:1", "B3.X:2"))).toBeLessThan(0.01);
      // Two sensors have their volts from it.
      const answer = solveCircuit(base, { state: "KOEO", faults: faultsOf(text) });
      expect(answer.kind === "settled" && [...answer.modes.units.keys()]).toEqual(["A1", "B2", "Y8"]);
    }
  });
});

describe("a named fault resistance", () => {
  test("is as exact as it is named: only the healthy part of a contact may be off", () => {
    const drop = read("CRANK", ["high-resistance:XE1:1=0.25"], {
      kind: "voltage-drop",
      red: "XE1m:1",
      black: "XE1e:1",
    });
    const text = JSON.stringify(drop);
    expect(drop.kind).toBe("value");
    expect(text).not.toMatch(/XE1:1[^"]*off by (?:[1-9]\d|[2-9])/u);
  });
});

describe("a fault that the machine cannot have is refused with the reason", () => {
  test.each([
    ["open:W999", "unknown-target"],
    ["open:W25", "not-fitted"],
    ["blown:S5.contact", "wrong-target"],
    ["stuck-open:A3.F1", "wrong-target"],
    ["stuck-on:S5.contact", "wrong-target"],
    ["drift:A3.F1=2", "wrong-target"],
    ["high-resistance:B3.cell=5", "wrong-target"],
    ["loose-terminal:W06@SP99=1", "unknown-target"],
    ["unplugged:Q7", "unknown-connector"],
    ["cross-wired:XF1p:3=XF1e:4", "wrong-target"],
    ["bridge:XC1:4=XC9:5", "unknown-target"],
    ["short:W74=NOWHERE", "unknown-target"],
  ])("%s: %s", (text, code) => {
    const answer = solveCircuit(base, { state: "KOEO", faults: faultsOf(text) });
    expect(answer.kind === "wrong-question" && answer.problems.map((problem) => problem.code)).toEqual([code]);
  });

  test("all of them are told at once", () => {
    const answer = solveCircuit(base, { state: "KOEO", faults: faultsOf("open:W998", "open:W999") });
    expect(answer.kind === "wrong-question" && answer.problems.map(({ of }) => of)).toEqual(["W998", "W999"]);
  });

  test("what one build has not, another has", () => {
    const faults = faultsOf("open:W25");
    expect(solveCircuit(tiller, { state: "KOEO", faults }).kind).toBe("settled");
  });
});
