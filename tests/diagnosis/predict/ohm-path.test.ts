import { describe, expect, test } from "vitest";
import { ohmPath, openLineOhm } from "../../../src/diagnosis/predict/ohm-path.ts";
import { demo } from "../demo-job.ts";

// Source: rule 10 and 11 of the workshop cases (made apart from this project): nothing may be concluded from ohms that go through an
// unpowered control unit or an active sensor; ohms between supply and ground of the machine are the sum of all that hangs there.
describe("ohmPath()", () => {
  test.each([
    ["a wire from end to end", "M2.X.harness:2", "GND-C1", [], "known"],
    ["a coil between the pins of its open plug", "XF1p:1", "XF1p:2", ["XF1"], "known"],
    ["a thermistor with its control unit left off", "A1.X1.harness:39", "A1.X1.harness:17", ["A1.X1"], "known"],
    ["two terminators with the units asleep beside them", "XD1.harness:C", "XD1.harness:D", [], "known"],
    ["a sensor line that must stand alone", "B5.X.harness:1", "G2-", ["B5.X", "A1.X1"], "none"],
    ["a sensor line into its control unit", "B5.X.harness:1", "G2-", ["B5.X"], "electronics"],
    ["supply to ground of the machine", "S10.2", "G2-", [], "electronics"],
  ] as const)("%s: %s to %s", (...[, red, black, unplugged, path]) => {
    expect(ohmPath(demo(), { state: "OFF", unplugged }, [red, black])).toBe(path);
  });

  test("a point that the machine does not have is no way", () => {
    expect(ohmPath(demo(), { state: "OFF", unplugged: [] }, ["G2-", "NOWHERE"])).toBe("electronics");
  });
});

describe("openLineOhm()", () => {
  test("a conductor is open at a kilohm, a sensor at ten, a line that stands alone at ten", () => {
    expect([0.1, 100, 2500, Infinity].map(openLineOhm)).toEqual([1000, 3000, 10_000, 10_000]);
  });
});
