import { describe, expect, test } from "vitest";
import { seededRandom } from "ohmward/base";
import { HAND_METER, readMeter } from "ohmward/simulation";
import { operatingPointIn, smallMachine, type SmallMachine } from "../support/small-machine.ts";

type Elements = SmallMachine["components"][number]["elements"];

const battery = { id: "b", kind: "source", role: "battery", between: ["P", "N"], voltageVolt: 12, resistanceOhm: 0.01 };
const terminalStuds = ["P", "N", "A", "B", "C", "D"];
const machineOf = (elements: Elements) => smallMachine({ terminalStuds, components: [{ id: "X", elements }] });

/** A battery with resistors and diodes between points drawn by lot. */
function drawn(seed: number): Elements {
  const random = seededRandom(seed);
  const pair = (): string[] => random.shuffle(terminalStuds).slice(0, 2);
  const spread = (): number => 10 ** (1 + 6 * random.next());
  const resistors = Array.from({ length: 4 }, (_, at) => {
    const resistanceOhm = spread();
    return { id: `r${at}`, kind: "resistor", between: pair(), resistanceOhm };
  });
  const diodes = Array.from({ length: 3 }, (_, at) => {
    return { id: `d${at}`, kind: "diode", between: pair(), forwardVolt: 0.7, resistanceOhm: 1 };
  });
  return [battery, ...resistors, ...diodes];
}

describe("readMeter() on volts, with diodes about", () => {
  // Against the plain solution of a machine that has the input resistance of the meter as a part of its own.
  test.each(Array.from({ length: 60 }, (_, at) => at + 1))(
    "is what a resistor of 10 Mohm has across it, draw %i",
    (seed) => {
      const elements = drawn(seed);
      const plain = machineOf(elements);
      const meter = { id: "m", kind: "resistor", between: ["", ""], resistanceOhm: HAND_METER.inputOhm };
      for (const [red, black] of [
        ["A", "N"],
        ["B", "N"],
        ["C", "D"],
        ["A", "B"],
        ["P", "D"],
      ] as const) {
        const reading = readMeter(plain, {
          operatingConditions: {},
          probe: { kind: "dc-voltage", red, black },
          compareWith: [],
        });
        const held = machineOf([...elements, { ...meter, between: [red, black] }]);
        const { volts } = operatingPointIn(held).solved;
        const at = (name: string): number => volts[held.nodeNumbers.get(name) ?? -1] ?? NaN;
        if (reading.kind === "value") expect(Math.abs(reading.value - (at(red) - at(black)))).toBeLessThan(1e-9);
        // Where the meter alone joins the two, nothing flows in it.
        else expect([reading.kind, Math.abs(at(red) - at(black)) < 1e-9]).toEqual(["floating", true]);
      }
    },
  );

  test("a meter opens a diode that nothing else loads", () => {
    const diode = { id: "d", kind: "diode", between: ["P", "A"], forwardVolt: 0.7, resistanceOhm: 1 };
    const reading = readMeter(machineOf([battery, diode]), {
      operatingConditions: {},
      probe: { kind: "dc-voltage", red: "A", black: "N" },
    });
    // 12 V less the forward voltage; what a meter draws is lost in 1 ohm.
    expect(reading.kind === "value" ? reading.value : NaN).toBeCloseTo(11.3, 5);
    const turned = { ...diode, between: ["A", "P"] };
    const other = readMeter(machineOf([battery, turned]), {
      operatingConditions: {},
      probe: { kind: "dc-voltage", red: "A", black: "N" },
    });
    expect(other.kind).toBe("floating");
  });
});
