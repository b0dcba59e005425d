import { describe, expect, test } from "vitest";
import { areOhmsKnown, ohmsBetween, readMeter, type OperatingConditions } from "ohmward/simulation";
import { fitDemo, openDemo } from "../../demo-harness/open-demo.ts";
import { operatingPointIn, pointNumber } from "../support/small-machine.ts";

const demo = fitDemo(openDemo(), "base");
const off: OperatingConditions = { state: "OFF" };

function areKnown(situation: OperatingConditions, red: string, black: string): boolean {
  const point = operatingPointIn(demo, situation);
  const [a, b] = [red, black].map((name) => pointNumber(demo, point, name));
  if (a === undefined || b === undefined) throw new Error(`No point ${a === undefined ? red : black}`);
  return areOhmsKnown(point, a, b);
}

// Which elements are resistors to an ohmmeter and which are not: wire, coil, winding, thermistor, terminator and pull resistor are; control
// units and active sensors without power are not (common practice, no source).
describe("areOhmsKnown()", () => {
  test.each([
    ["a contact", "XE1m:1", "XE1e:1", [], true],
    ["the two lines of the bus, terminators on", "XD1:C", "XD1:D", [], true],
    ["a coolant sensor by itself", "B5.X.device:1", "B5.X.device:2", ["B5.X"], true],
    ["a coil from its socket, the unit off", "A1.X1.harness:42", "GND-E1", ["A1.X1"], true],
    [
      "an open line with the unit and the sensors off",
      "A1.X1.harness:1",
      "GND-E1",
      ["A1.X1", "B3.X", "B4.X", "B6.X"],
      true,
    ],
    ["a supply of sensors to ground, all plugged in", "A1.X1:1", "GND-E1", [], false],
    ["the feed of a control unit to its ground", "A1.X2:1", "A1.X2:13", [], false],
    ["supply to ground of the whole machine", "S10.2", "G2-", [], false],
    ["a coolant sensor with the unit beside it", "A1.X1:39", "A1.X2:1", [], false],
  ] as const)("%s", (...[, red, black, unplugged, wanted]) => {
    expect(areKnown({ ...off, unplugged: [...unplugged] }, red, black)).toBe(wanted);
  });
});

describe("ohmsBetween()", () => {
  test("says what hides, and the meter says what to take off first", () => {
    const point = operatingPointIn(demo, off);
    const pair = ["A1.X2:1", "A1.X2:13"].map((name) => pointNumber(demo, point, name) ?? -1);
    const found = ohmsBetween(point, [pair[0] ?? -1, pair[1] ?? -1]);
    expect(found.kind === "hidden" && found.parts.map((at) => point.list.parts[at]?.key)).toContain("A1.supply");
    const reading = readMeter(demo, {
      operatingConditions: off,
      probe: { kind: "resistance", red: "A1.X2:1", black: "A1.X2:13" },
      compareWith: [],
    });
    expect(reading).toMatchObject({
      kind: "refused",
      because: [{ code: "hidden", text: expect.stringContaining("10 kΩ") as string }],
      disconnect: expect.arrayContaining([expect.stringContaining("disconnect A1.X1 and A1.X2")]) as string[],
    });
  });

  test("takes a known way beside which little hides for what is known, and widens its band", () => {
    const reading = readMeter(demo, {
      operatingConditions: { ...off, faults: [{ kind: "open", of: "W44" }] },
      probe: { kind: "resistance", red: "XD1:C", black: "XD1:D" },
      compareWith: [],
    });
    // One terminator of 120 ohm beside 15 kohm pulls; 22 kohm and less beside that is less than the meter is off.
    expect(reading.kind === "value" && reading.value).toBeGreaterThan(119.3);
    expect(reading.kind === "value" && reading.value).toBeLessThan(119.7);
  });
});
