import { describe, expect, test } from "vitest";
import { HAND_METER, readMeter, type Probe } from "ohmward/simulation";
import { smallMachine } from "./support/small-machine.ts";
import { lookFromTwoPoints } from "./support/plain-network.ts";

// Published figures for small circuits. Each block names its source and how far it can be trusted.

type Elements = Parameters<typeof smallMachine>[0]["components"][number]["elements"];

const resistor = (id: string, from: string, to: string, resistanceOhm: number) => ({
  id,
  kind: "resistor",
  between: [from, to],
  resistanceOhm,
});

function reading(elements: Elements, probe: Probe, terminalStuds = ["P", "N", "A", "B", "C"]) {
  const harness = smallMachine({ terminalStuds, components: [{ id: "X", elements }] });
  const answer = readMeter(harness, { operatingConditions: {}, probe });
  if (answer.kind !== "value") throw new Error(JSON.stringify(answer));
  return answer;
}

const ohms = (elements: Elements): number => reading(elements, { kind: "resistance", red: "A", black: "N" }).value;

describe("CAN, ohms from line to line with everything asleep", () => {
  // Source: three training pages and ISO 11898-2 for the nominal values; 57.7 worked out. Confidence high.
  const terminators = (count: number) => Array.from({ length: count }, (_, at) => resistor(`t${at}`, "A", "N", 120));
  test.each([
    ["one terminator missing", terminators(1), 120],
    ["as it should be", terminators(2), 60],
    ["a third terminator", terminators(3), 40],
    ["terminators of 110 ohm", [resistor("a", "A", "N", 110), resistor("b", "A", "N", 110)], 55],
    ["terminators of 130 ohm", [resistor("a", "A", "N", 130), resistor("b", "A", "N", 130)], 65],
    [
      "two terminators and 20 nodes of 30 kohm",
      [...terminators(2), ...Array.from({ length: 20 }, (_, at) => resistor(`n${at}`, "A", "N", 30_000))],
      57.7,
    ],
  ])("%s", (_name, elements, wanted) => {
    expect(ohms(elements)).toBeCloseTo(wanted, 1);
  });
});

describe("relay coils with a resistor across them", () => {
  // Source: relay data sheets (Omron G8JN, Panasonic CB1, a 24 V mini relay). Confidence high.
  test.each([
    ["12 V, 76 ohm and 680 ohm", 76, 680, 68.4],
    ["12 V, 1.4 W (102.9 ohm) and 680 ohm: 89.3, printed as 89.5", 144 / 1.4, 680, 89.3],
    ["24 V, 320 ohm and 2.8 kohm: printed as 287.2", 320, 2800, 287.2],
  ])("%s", (_name, resistanceOhm, suppressorOhm, wanted) => {
    const suppressor = { kind: "resistor", resistanceOhm: suppressorOhm };
    const coil = { id: "k", kind: "coil", between: ["A", "N"], resistanceOhm, suppressor };
    expect(ohms([coil])).toBeCloseTo(wanted, wanted > 200 ? 0 : 1);
  });

  test("a diode across the coil: the reading is the coil, and that it depends on the leads is said", () => {
    const coil = { id: "k", kind: "coil", between: ["A", "N"], resistanceOhm: 103, suppressor: { kind: "diode" } };
    const answer = reading([coil], { kind: "resistance", red: "A", black: "N" });
    expect(answer.value).toBeCloseTo(103, 9);
    expect(answer.because.map(({ code }) => code)).toContain("polarity");
  });
});

describe("LIN, pull-up seen by the wire", () => {
  // Source: 1 kohm in the commander, 30 kohm in each responder (TI, NXP, Microchip sheets); worked out. Confidence high.
  test.each([
    [1, 968],
    [5, 857],
    [15, 667],
  ])("with %i responders", (count, wanted) => {
    const branches = [
      { from: 0, to: 1, ohm: 1000, volt: 11.3 },
      ...Array.from({ length: count }, () => ({ from: 0, to: 1, ohm: 30_000, volt: 11.3 })),
    ];
    const seen = lookFromTwoPoints({ nodeCount: 2, branches }, 1, 0);
    expect(seen.kind === "connected" && Math.round(seen.ohm)).toBe(wanted);
    // Resting level: supply less one diode drop.
    expect(seen.kind === "connected" && seen.openVolt).toBeCloseTo(11.3, 12);
  });
});

describe("why a reading is taken with the load on", () => {
  // Source: worked check values (Ohm's law; 21 W lamp at its rating, 10 Mohm meter). Confidence high.
  const supply = { id: "s", kind: "source", between: ["P", "N"], role: "battery", voltageVolt: 12.6, resistanceOhm: 0 };

  test("12.6 V through a bad joint of 100 ohm: 12.60 V without load, 0.81 V and 0.118 A with a 21 W lamp", () => {
    const elements = [supply, resistor("joint", "P", "A", 100)];
    expect(reading(elements, { kind: "dc-voltage", red: "A", black: "N" }).value).toBeCloseTo(12.6, 3);
    const loaded = reading(elements, { kind: "loaded", red: "A", black: "N" });
    expect(loaded.value).toBeCloseTo(0.81, 2);
    expect(loaded.because.map(({ text }) => text).join("\n")).toContain("0.12 A");
    // A lamp that stays dark has about a tenth of that resistance.
    expect(loaded.low).toBeLessThan(0.09);
  });

  test("an open wire with 1 Mohm of leakage: 11.45 V on a 10 Mohm meter, 0.09 mV on a 21 W lamp", () => {
    const elements = [supply, resistor("leak", "P", "A", 1e6)];
    const volts = reading(elements, { kind: "dc-voltage", red: "A", black: "N" });
    expect(volts.value).toBeCloseTo(11.45, 2);
    expect(volts.because.map(({ code }) => code)).toContain("weak-source");
    expect(reading(elements, { kind: "loaded", red: "A", black: "N" }).value).toBeCloseTo(0.00009, 5);
  });

  test("the same on a meter of 3 kohm: 0.038 V", () => {
    const elements = [supply, resistor("leak", "P", "A", 1e6)];
    const harness = smallMachine({ terminalStuds: ["P", "N", "A"], components: [{ id: "X", elements }] });
    const probe = { kind: "dc-voltage", red: "A", black: "N" } as const;
    const answer = readMeter(harness, { operatingConditions: {}, probe, meter: { ...HAND_METER, inputOhm: 3000 } });
    expect(answer.kind === "value" && answer.value).toBeCloseTo(0.038, 3);
  });

  test.each([
    [1, 0.0055],
    [5, 0.027],
    [10, 0.055],
  ])("one strand of 0.2 mm over 10 mm, 5.49 mohm, drops little at %i A", (ampere, wanted) => {
    const load = { id: "load", kind: "load", between: ["A", "N"], resistanceOhm: 12.6 / ampere - 0.00549 };
    const drop = reading([supply, resistor("strand", "P", "A", 0.00549), load], {
      kind: "voltage-drop",
      red: "P",
      black: "A",
    });
    expect(drop.value).toBeCloseTo(wanted, 3);
    expect(drop.because.map(({ code }) => code)).toContain("current");
  });
});
