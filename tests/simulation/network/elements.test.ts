import { describe, expect, test } from "vitest";
import { buildParts, readMeter } from "ohmward/simulation";
import { battery, operatingPointIn, smallMachine, standing, voltsIn } from "../support/small-machine.ts";

// Ohm's law on parts with round figures (textbook, confidence high); the models are those of docs/methods/simulation.md.

type Elements = Parameters<typeof smallMachine>[0]["components"][number]["elements"];

/** A machine with a 12 V battery and one component X. */
const withX = (elements: Elements, more: Partial<Parameters<typeof smallMachine>[0]> = {}) =>
  smallMachine({
    terminalStuds: ["P", "N", "A", "B", "C"],
    ...more,
    components: [battery, { id: "X", elements }, ...(more.components ?? [])],
  });

const resistor = (id: string, from: string, to: string, resistanceOhm: number) => ({
  id,
  kind: "resistor",
  between: [from, to],
  resistanceOhm,
});

describe("parts that only resist", () => {
  test.each([
    ["a resistor", { kind: "resistor", resistanceOhm: 3 }, 9],
    ["a load", { kind: "load", resistanceOhm: 3 }, 9],
    ["a fuse", { kind: "fuse", resistanceOhm: 1, ratedAmpere: 5, style: "blade", testWindows: true }, 10.8],
    ["a lamp, 12 V 48 W = 3 ohm", { kind: "lamp", powerWatt: 48, voltageVolt: 12 }, 9],
    ["a coil", { kind: "coil", resistanceOhm: 9 }, 6],
    ["a copper bar", { kind: "bar" }, 12],
    ["a bar with a resistance", { kind: "bar", resistanceOhm: 1 }, 10.8],
    ["a closed switch", { kind: "switch", resistanceOhm: 1, rest: "closed" }, 10.8],
  ])("%s and 9 ohm behind it", (_name, element, wanted) => {
    const harness = withX([{ id: "e", between: ["P", "A"], ...element }, resistor("r", "A", "N", 9)]);
    expect(voltsIn(harness, {}, "A")).toBeCloseTo(wanted, 12);
  });

  // Source: tungsten has about 14 times the resistivity at 2,700 K that it has at 300 K (Jones and Langmuir 1927, from memory); a lamp of
  // 12 V and 21 W, 6.9 ohm alight, is known to read about half an ohm cold (common practice, no source).
  test("a lamp is cold where the battery is disconnected: 21 W read about half an ohm, not 6.9", () => {
    const lamp = { id: "e", kind: "lamp", between: ["A", "B"], powerWatt: 21, voltageVolt: 12 };
    const harness = withX([lamp], { states: [{ id: "DEAD", conditions: ["battery-disconnected"] }] });
    const probe = { kind: "resistance", red: "A", black: "B" } as const;
    const reading = readMeter(harness, { operatingConditions: { state: "DEAD" }, probe });
    if (reading.kind !== "value") throw new Error(reading.kind);
    expect(reading.low).toBeLessThan(0.5);
    expect(reading.high).toBeGreaterThan(0.5);
    expect(reading.value).toBeLessThan(6.9 / 10);
    expect(reading.value).toBeGreaterThan(6.9 / 16);
  });

  test("a load has the resistance of the state", () => {
    const load = { id: "e", kind: "load", between: ["P", "A"], resistanceOhm: 9 };
    const byState = { ...load, resistanceByState: [{ state: "FAST", resistanceOhm: 3 }] };
    const harness = withX([byState, resistor("r", "A", "N", 9)], { states: [{ id: "FAST" }, { id: "SLOW" }] });
    expect(voltsIn(harness, { state: "SLOW" }, "A")).toBeCloseTo(6, 12);
    expect(voltsIn(harness, { state: "FAST" }, "A")).toBeCloseTo(9, 12);
  });

  test("a coil follows the temperature of copper: 103 ohm at 20 C is 129 at 85 C", () => {
    // Source: 0.393 %/K, relay sheets and copper tables; confidence high.
    const harness = withX([{ id: "e", kind: "coil", between: ["A", "N"], resistanceOhm: 103 }]);
    const parts = buildParts(harness, { temperatureC: 85 });
    expect(parts.ok && parts.value.parts.find((part) => part.key === "X.e")?.ohm).toBeCloseTo(129.3, 1);
  });

  test("a wire without size and length joins, and it is said", () => {
    const harness = withX([resistor("r", "A", "N", 9)], { wires: [{ id: "W1", ends: ["P", "A"] }] });
    expect(voltsIn(harness, {}, "A")).toBe(12);
    expect(operatingPointIn(harness).list.assumptions).toEqual([
      { code: "missing", of: "W1", text: "W1: no cross-section and no length given, assumed 0 Ω" },
    ]);
  });
});

describe("sensors", () => {
  test("a thermistor follows its quantity, or the temperature of the document, which is said", () => {
    const curve = { referenceOhm: 1000, referenceC: 20, betaK: 3450 };
    const harness = withX(
      [{ id: "t", kind: "ntc", between: ["P", "A"], quantity: "heat", curve }, resistor("r", "A", "N", 1000)],
      { states: [{ id: "WARM", quantities: [{ name: "heat", value: 60, unit: "C" }] }] },
    );
    expect(voltsIn(harness, {}, "A")).toBeCloseTo(6, 12);
    const hotOhm = 1000 * Math.exp(3450 * (1 / 333.15 - 1 / 293.15));
    expect(voltsIn(harness, { state: "WARM" }, "A")).toBeCloseTo(12_000 / (1000 + hotOhm), 12);
    expect(voltsIn(harness, { state: "WARM", quantities: [{ name: "heat", value: 20 }] }, "A")).toBeCloseTo(6, 12);
    expect(operatingPointIn(harness).list.assumptions.map(({ code }) => code)).toContain("missing");
    expect(operatingPointIn(harness, { state: "WARM" }).list.assumptions).toEqual([]);
  });

  test.each([
    [0, 1.2],
    [50, 6],
    [100, 10.8],
    [500, 10.8],
  ])("a ratiometric sensor at %i gives %f of 12 V with nothing on its tap", (value, wanted) => {
    const sensor = { id: "p", kind: "divider", between: ["P", "N"], tap: "A", quantity: "push", sourceOhm: 100 };
    const ratio = [
      [0, 0.1],
      [100, 0.9],
    ];
    const harness = withX([{ ...sensor, ratio }, resistor("r", "B", "N", 100)]);
    const quantities = [{ name: "push", value }];
    expect(voltsIn(harness, { quantities }, "A")).toBeCloseTo(wanted, 12);
  });

  test("a ratiometric sensor has its source resistance at the tap and draws its current at 5 V", () => {
    const sensor = { id: "p", kind: "divider", between: ["A", "N"], tap: "B", quantity: "push", supplyAmpere: 0.02 };
    const ratio = [
      [0, 0.5],
      [100, 0.5],
    ];
    const harness = withX([
      { ...sensor, ratio, sourceOhm: 100 },
      resistor("r", "B", "N", 100),
      { id: "reg", kind: "source", between: ["A", "N"], role: "regulator", voltageVolt: 5, resistanceOhm: 0 },
    ]);
    expect(voltsIn(harness, {}, "B")).toBeCloseTo(1.25, 12);
    const { list, values } = operatingPointIn(harness);
    const supply = list.parts.findIndex((part) => part.key === "X.p|supply");
    // 5 V over 400 ohm are 12.5 mA; the other 7.5 mA take 666.7 ohm.
    expect(values.ohm[supply]).toBeCloseTo(5 / 0.0075, 9);
  });
});

describe("sources", () => {
  const source = (more: object) => ({ id: "s", kind: "source", between: ["A", "N"], resistanceOhm: 0, ...more });

  // Source: a battery gives below its resting volts, takes next to nothing up to its charging volts and charges above; an alternator and
  // a regulator give and take none (electrical textbook).
  test.each([
    ["gives", 11, 11.5],
    ["takes next to nothing", 12.5, 12.5],
    ["charges", 14, 13.8],
  ] as const)("a battery at %s", (_name, volt, wanted) => {
    const cells = { ...battery.elements[0], resistanceOhm: 1, whenCharging: { voltageVolt: 13.6, resistanceOhm: 1 } };
    const feeder = {
      id: "s",
      kind: "source",
      between: ["P", "N"],
      role: "alternator",
      voltageVolt: volt,
      resistanceOhm: 1,
    };
    const load = resistor("r", "P", "N", 1e9);
    const harness = smallMachine({
      terminalStuds: ["P", "N"],
      components: [
        { id: "G", elements: [cells] },
        { id: "L", elements: [feeder, load] },
      ],
    });
    const settings = [{ of: "L.s", is: "on" as const }];
    // The alternator takes nothing of what a better battery gives.
    expect(voltsIn(harness, { settings }, "P")).toBeCloseTo(volt < 12 ? 12 : wanted, 6);
  });

  test("a worn battery has more inside it, giving and charging; a weak alternator less", () => {
    const cells = {
      ...battery.elements[0],
      resistanceOhm: 0.01,
      whenCharging: { voltageVolt: 13.6, resistanceOhm: 0.02 },
    };
    const alternator = {
      id: "s",
      kind: "source",
      between: ["P", "N"],
      role: "alternator",
      voltageVolt: 14,
      resistanceOhm: 0.1,
    };
    const harness = smallMachine({
      terminalStuds: ["P", "N"],
      components: [
        { id: "G", elements: [cells] },
        { id: "L", elements: [alternator, resistor("r", "P", "N", 1)] },
      ],
    });
    const worn = { kind: "high-resistance", of: "G.cells", ohm: 0.09 } as const;
    const flat = { kind: "drift", of: "G.cells", factor: 1, offset: -1 } as const;
    const on = [{ of: "L.s", is: "on" as const }];
    expect(voltsIn(harness, { faults: [worn, flat] }, "P")).toBeCloseTo(11 / 1.1, 9);
    expect(voltsIn(harness, { settings: on, faults: [worn] }, "P")).toBeCloseTo(12.7272727, 6);
    expect(voltsIn(harness, { settings: on, faults: [{ kind: "stuck-off", of: "L.s" }] }, "P")).toBeCloseTo(
      12 / 1.01,
      9,
    );
    const weak = { kind: "drift", of: "L.s", factor: 1, offset: -1.5 } as const;
    expect(voltsIn(harness, { settings: on, faults: [weak] }, "P")).toBeLessThan(12);
  });

  test("a regulator takes nothing from a line that is pulled above it", () => {
    const harness = smallMachine({
      terminalStuds: ["P", "N", "A"],
      components: [
        battery,
        {
          id: "L",
          elements: [source({ role: "regulator", voltageVolt: 5, resistanceOhm: 0.3 }), resistor("r", "P", "A", 100)],
        },
      ],
    });
    expect(voltsIn(harness, {}, "A")).toBeCloseTo(12, 9);
  });

  test("an output that has no supply of its own does nothing, and what draws it hides", () => {
    const cell = (volt: number) =>
      withX([
        { id: "feed", kind: "source", between: ["A", "N"], role: "alternator", voltageVolt: volt, resistanceOhm: 1 },
        resistor("pull", "P", "B", 1000),
        { id: "supply", kind: "load", between: ["A", "N"], resistanceOhm: 800 },
        { id: "out", kind: "driver", between: ["B", "N"], side: "low", resistanceOhm: 50 },
      ]);
    const settings = [
      { of: "X.feed", is: "on" as const },
      { of: "X.out", is: "on" as const },
    ];
    expect(voltsIn(cell(5), { settings }, "B")).toBeLessThan(1);
    expect(voltsIn(cell(1), { settings }, "B")).toBe(12);
    expect(voltsIn(cell(1), { settings }, "A")).toBeCloseTo(1 - 1 / 22e3, 6);
  });

  test("an alternator works in running states only, and makes the battery charge", () => {
    const cells = { ...battery.elements[0], resistanceOhm: 1, whenCharging: { voltageVolt: 13, resistanceOhm: 2 } };
    const harness = smallMachine({
      terminalStuds: ["P", "N"],
      components: [
        { id: "G", elements: [cells] },
        {
          id: "L",
          elements: [
            { id: "out", kind: "source", between: ["P", "N"], role: "alternator", voltageVolt: 14, resistanceOhm: 1 },
            resistor("r", "P", "N", 1000),
          ],
        },
      ],
      states: [{ id: "STOP" }, { id: "RUN", conditions: ["running"] }],
    });
    expect(voltsIn(harness, { state: "STOP" }, "P")).toBeCloseTo((12 * 1000) / 1001, 12);
    // 14 V behind 1 ohm and 13 V behind 2 ohm on 1000 ohm.
    expect(voltsIn(harness, { state: "RUN" }, "P")).toBeCloseTo((14 / 1 + 13 / 2) / (1 + 0.5 + 0.001), 12);
    expect(voltsIn(harness, { state: "RUN", settings: [{ of: "L.out", is: "off" }] }, "P")).toBeLessThan(12);
  });

  test.each([
    ["its normal resistance below the limit", 100, (5 * 100) / 101],
    ["the folded one above it", 10, (5 * 10) / 70],
  ])("a regulator has %s", (_name, load, wanted) => {
    const foldBack = { limitAmpere: 0.1, resistanceOhm: 60 };
    const regulator = source({ role: "regulator", voltageVolt: 5, resistanceOhm: 1, foldBack });
    const harness = withX([regulator, resistor("r", "A", "N", load)]);
    expect(voltsIn(harness, {}, "A")).toBeCloseTo(wanted, 12);
  });

  test("ideal sources at odds are named", () => {
    const harness = withX([
      source({ role: "regulator", voltageVolt: 5 }),
      { id: "b", kind: "bar", between: ["A", "P"] },
    ]);
    expect(() => operatingPointIn(harness)).toThrow('{"kind":"contradictory","sources":["G.cells","X.s"]}');
  });
});

describe("pull resistors and drivers", () => {
  test.each([
    ["to a rail", ["A", "P"], {}, 9],
    ["to a voltage of its own", ["A", "N"], { towardVolt: 4 }, 3],
  ])("a pull resistor %s", (_name, between, more, wanted) => {
    const bias = { id: "u", kind: "bias", between, pull: "up", resistanceOhm: 100, ...more };
    expect(voltsIn(withX([bias, resistor("r", "A", "N", 300)]), {}, "A")).toBeCloseTo(wanted, 12);
  });

  const driver = (side: "low" | "high") => ({ id: "d", kind: "driver", side, resistanceOhm: 1 });
  const low = withX([{ ...driver("low"), between: ["A", "N"] }, resistor("r", "P", "A", 11)]);
  const high = withX([{ ...driver("high"), between: ["A", "P"] }, resistor("r", "A", "N", 11)]);

  test.each([
    ["low, off", low, "off", 12],
    ["low, on", low, "on", 1],
    ["high, off", high, "off", 0],
    ["high, on", high, "on", 11],
    ["low, 25 % of the time", low, { dutyPercent: 25 }, 0.25 * 1 + 0.75 * 12],
    ["high, 25 % of the time", high, { dutyPercent: 25 }, 0.25 * 11],
    ["low, 0 % of the time", low, { dutyPercent: 0 }, 12],
    ["low, 100 % of the time", low, { dutyPercent: 100 }, 1],
  ] as const)("a driver, %s", (_name, harness, is, wanted) => {
    expect(voltsIn(harness, { settings: [{ of: "X.d", is }] }, "A")).toBeCloseTo(wanted, 7);
  });

  test("two pulsed drivers in circuits of their own each give their own average", () => {
    const harness = withX([
      { ...driver("low"), between: ["A", "N"] },
      resistor("r", "P", "A", 11),
      { ...driver("low"), id: "d2", between: ["B", "N"] },
      resistor("r2", "P", "B", 3),
    ]);
    const settings = [
      { of: "X.d", is: { dutyPercent: 40 } },
      { of: "X.d2", is: { dutyPercent: 70 } },
    ];
    expect(voltsIn(harness, { settings }, "A")).toBeCloseTo(0.4 * 1 + 0.6 * 12, 7);
    expect(voltsIn(harness, { settings }, "B")).toBeCloseTo(0.7 * 3 + 0.3 * 12, 7);
  });
});

describe("diodes", () => {
  const diode = (between: readonly [string, string]) => ({
    id: "d",
    kind: "diode",
    between,
    forwardVolt: 0.7,
    resistanceOhm: 1,
  });

  test.each([
    ["forward", ["P", "A"] as const, ((12 - 0.7) * 10) / 11],
    ["backward", ["A", "P"] as const, 0],
  ])("a diode put in %s", (_name, between, wanted) => {
    const harness = withX([diode(between), resistor("r", "A", "N", 10)]);
    expect(voltsIn(harness, {}, "A")).toBeCloseTo(wanted, 12);
  });

  test("what hangs on a diode alone is floating", () => {
    expect(standing(withX([diode(["P", "A"])]), {}, "A")).toEqual({ kind: "floating", island: "A" });
  });

  test("four diodes give the higher of two ends whichever way the source stands", () => {
    const bridge = (volt: number) => [
      { id: "s", kind: "source", between: ["A", "B"], role: "battery", voltageVolt: volt, resistanceOhm: 1 },
      { ...diode(["A", "C"]), id: "d1" },
      { ...diode(["B", "C"]), id: "d2" },
      { ...diode(["N", "A"]), id: "d3" },
      { ...diode(["N", "B"]), id: "d4" },
      resistor("r", "C", "N", 97),
    ];
    // One source, two diodes of 0.7 V and 1 ohm, 97 ohm.
    for (const volt of [9.4, -9.4]) expect(voltsIn(withX(bridge(volt)), {}, "C")).toBeCloseTo((97 * 8) / 100, 12);
  });
});

describe("relays", () => {
  const coil = { id: "k", kind: "coil", between: ["A", "N"], resistanceOhm: 100, pullInVolt: 7, dropOutVolt: 3 };
  const contact = (form: "make" | "break") => ({ id: "c", kind: "contact", between: ["P", "B"], of: "k", form });
  const feed = (ohm: number) => resistor("f", "P", "A", ohm);
  const load = resistor("r", "B", "N", 9);
  const relay = (ohm: number, form: "make" | "break" = "make") =>
    withX([feed(ohm), coil, { ...contact(form), resistanceOhm: 1 }, load]);

  test.each([
    ["make, 8.0 V", 50, "make", 10.8],
    ["make, 6.9 V", 74, "make", 0],
    ["break, 8.0 V", 50, "break", 0],
    ["break, 6.9 V", 74, "break", 10.8],
  ] as const)("a contact, %s at the coil", (_name, ohm, form, wanted) => {
    expect(voltsIn(relay(ohm, form), {}, "B")).toBeCloseTo(wanted, 12);
  });

  test("a coil that has pulled in holds until it is below its drop-out voltage", () => {
    // The contact loads the coil's own feed: 8 V open, 5 V or 2.4 V once the load is on.
    const harness = (loadOhm: number) =>
      withX([
        feed(50),
        coil,
        { ...contact("make"), between: ["A", "B"], resistanceOhm: 0 },
        resistor("r", "B", "N", loadOhm),
      ]);
    const held = harness(1000 / 18);
    expect(voltsIn(held, {}, "A")).toBeGreaterThan(3);
    expect(voltsIn(held, {}, "A")).toBeLessThan(7);
    expect(voltsIn(held, {}, "B")).toBe(voltsIn(held, {}, "A"));
    // Below drop-out it lets go, pulls in again and so on: it chatters.
    expect(() => operatingPointIn(harness(10))).toThrow('{"kind":"no-steady-state","noOperatingPoint":["X.k"]}');
  });

  test("a relay that interrupts its own coil is a buzzer and has no steady state", () => {
    const harness = withX([{ ...contact("break"), between: ["P", "A"], resistanceOhm: 0.01 }, coil]);
    expect(() => operatingPointIn(harness)).toThrow('{"kind":"no-steady-state","noOperatingPoint":["X.k"]}');
  });

  // Source: what pulls a relay in is the current in its winding, here its pull-in voltage over its nominal resistance; an open winding has
  // full volts at its terminals (electrical textbook).
  test.each([
    ["open", { kind: "open", of: "X.k" }, 0],
    ["1.8 times its resistance", { kind: "drift", of: "X.k", factor: 1.8, offset: 0 }, 0],
    ["1.4 times its resistance", { kind: "drift", of: "X.k", factor: 1.4, offset: 0 }, 10.8],
    ["a bad joint inside", { kind: "high-resistance", of: "X.k", ohm: 80 }, 0],
  ] as const)("a coil with full volts, %s", (_name, fault, wanted) => {
    const harness = withX([feed(0), coil, { ...contact("make"), resistanceOhm: 1 }, load]);
    expect(voltsIn(harness, { faults: [fault] }, "A")).toBe(12);
    expect(voltsIn(harness, { faults: [fault] }, "B")).toBeCloseTo(wanted, 12);
  });

  // Source: 76 ohm coil with 680 ohm across it reads 68.4 ohm (data sheets of suppressed relays); its winding open leaves the 680 ohm.
  test.each([
    ["whole", [], (76 * 680) / (76 + 680)],
    ["open", [{ kind: "open", of: "X.k" }], 680],
  ] as const)("the suppressor of a coil stays: winding %s", (_name, faults, ohm) => {
    const suppressed = { ...coil, resistanceOhm: 76, suppressor: { kind: "resistor", resistanceOhm: 680 } };
    const harness = withX([suppressed, { ...contact("make"), resistanceOhm: 1 }, load]);
    const found = readMeter(harness, {
      operatingConditions: { faults },
      probe: { kind: "resistance", red: "A", black: "N" },
      compareWith: [],
    });
    expect(found.kind === "value" ? found.value : found.kind).toBeCloseTo(ohm, 9);
  });

  test("a coil without voltages of its own takes typical ones, and it is said", () => {
    const { pullInVolt: _pull, dropOutVolt: _drop, ...bare } = coil;
    const harness = withX([feed(50), bare, { ...contact("make"), resistanceOhm: 1 }, load]);
    expect(voltsIn(harness, {}, "B")).toBeCloseTo(10.8, 12);
    expect(operatingPointIn(harness).list.assumptions).toEqual([
      expect.objectContaining({ code: "typical", of: "X.k", text: expect.stringContaining("7.8 V") as string }),
    ]);
  });

  test("a setting of the state stands above the coil", () => {
    expect(voltsIn(relay(50), { settings: [{ of: "X.c", is: "open" }] }, "B")).toBe(0);
  });
});
