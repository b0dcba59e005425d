import {
  classOf,
  cutClasses,
  FLOATING,
  fromScale,
  isImprobable,
  OVER_RANGE,
  readingLikelihoods,
  toScale,
  UNKNOWN,
  UNSTEADY,
  type MeterUnit,
  type ReadingModel,
} from "ohmward/diagnosis";
import { describe, expect, test } from "vitest";

describe("toScale()", () => {
  // The two axes are asinh(V / 50 mV) and log(R + 0.5 ohm): a choice of this project, see docs/methods/diagnosis.md.
  test.each([
    [0, "V"],
    [12.6, "V"],
    [-0.3, "V"],
    [0.02, "A"],
    [0, "Ω"],
    [60, "Ω"],
    [1e6, "Ω"],
  ] as const)("keeps %d %s there and back", (value, unit) => {
    expect(fromScale(toScale(value, unit), unit)).toBeCloseTo(value, 6);
  });

  test("rises with the value, keeps the sign and leaves over range alone", () => {
    expect(toScale(-1, "V")).toBeLessThan(0);
    expect(toScale(5, "V")).toBeGreaterThan(toScale(4.9, "V"));
    expect(toScale(0.2, "Ω") - toScale(0.1, "Ω")).toBeLessThan(0.2);
    expect(toScale(Infinity, "Ω")).toBe(OVER_RANGE);
  });
});

const model = (unit: MeterUnit, points: readonly number[], shares: readonly number[] = []): ReadingModel => ({
  kind: "scale",
  unit,
  points: Float64Array.from(points),
  spreads: Float64Array.from(points, () => 0.05),
  others: Float64Array.from(points, () => toScale(0, unit)),
  otherShares: Float64Array.from(points, (_, index) => shares[index] ?? 0),
});
const volts = (...values: readonly number[]): ReadingModel =>
  model(
    "V",
    values.map((each) => toScale(each, "V")),
  );

describe("readingLikelihoods()", () => {
  test("spreads a hypothesis evenly over the stretch to its neighbours", () => {
    const [spread, below, above] = [0.05, 0.4, 0.1];
    const stretched = {
      ...model("V", [0]),
      ...{ below: Float64Array.of(below), above: Float64Array.of(above) },
    };
    // Source: the same density as an integral of the normal one (textbook), summed here in small steps.
    const steps = 20_000;
    const width = (below + above) / steps;
    for (const at of [-0.6, -0.45, -0.4, -0.2, 0, 0.1, 0.15, 0.25]) {
      let sum = 0;
      for (let step = 0; step < steps; step++) {
        const distance = (at + below - (step + 0.5) * width) / spread;
        sum += Math.exp(-0.5 * distance * distance) / (spread * Math.sqrt(2 * Math.PI)) / steps;
      }
      const { likelihoods } = readingLikelihoods(stretched, { kind: "value", value: fromScale(at, "V") });
      expect(likelihoods[0]).toBeCloseTo(sum, 3);
    }
  });

  test("speaks for the hypothesis that foresaw the value", () => {
    const { likelihoods, even } = readingLikelihoods(
      { ...volts(12.5, 0.02, 0), points: Float64Array.of(toScale(12.5, "V"), toScale(0.02, "V"), UNKNOWN) },
      { kind: "value", value: 12.6 },
    );
    expect(likelihoods[0]).toBeGreaterThan(5);
    expect(likelihoods[1]).toBeLessThan(1e-9);
    expect(likelihoods[2]).toBe(even);
  });

  test("is a density: over the whole axis it adds up to 1, also for a fault that comes and goes", () => {
    const both = model("V", [toScale(5, "V"), toScale(5, "V")], [0, 0.2]);
    let sums = [0, 0];
    for (let at = -2; at < 8; at += 0.001) {
      const { likelihoods } = readingLikelihoods(both, { kind: "value", value: fromScale(at, "V") });
      sums = sums.map((sum, index) => sum + (likelihoods[index] ?? 0) * 0.001);
    }
    for (const sum of sums) expect(sum).toBeCloseTo(1, 6);
  });

  test("tells over range, unsteady and floating apart", () => {
    const ohms = model("Ω", [OVER_RANGE, UNSTEADY, FLOATING, 4]);
    expect([...readingLikelihoods(ohms, { kind: "overload" }).likelihoods]).toEqual([1, 0, 0, 0]);
    const unsteady = readingLikelihoods(ohms, { kind: "unstable" }).likelihoods;
    expect([...unsteady].map((each) => each > 0)).toEqual([false, true, true, false]);
    expect(unsteady[1]).toBeGreaterThan(unsteady[2] ?? 1);
    const zero = readingLikelihoods({ ...ohms, unit: "V" }, { kind: "value", value: 0 }).likelihoods;
    expect(zero[2]).toBeGreaterThan(zero[1] ?? 1);
  });

  test("an unsteady reading speaks for a fault that comes and goes", () => {
    const { likelihoods } = readingLikelihoods(model("V", [5, 5], [0, 0.2]), { kind: "unstable" });
    expect(likelihoods[1]).toBeGreaterThan(likelihoods[0] ?? 1);
  });
});

describe("cutClasses()", () => {
  test("cuts at the largest gaps, not inside what a meter cannot tell apart", () => {
    const pooled = Float64Array.from([0, 0.01, 1, 1.02, 5, 5.01]);
    const classes = cutClasses(pooled, () => 0.1);
    expect(classes.count).toBe(3);
    expect([...pooled].map((sample) => classOf(classes, sample))).toEqual([0, 0, 1, 1, 2, 2]);
  });

  test("gives the special marks classes of their own and takes floating for near zero", () => {
    const pooled = Float64Array.from([OVER_RANGE, UNSTEADY, FLOATING, 0, 3]);
    const classes = cutClasses(pooled, () => 0.1);
    expect(classes.count).toBe(4);
    expect([...pooled].map((sample) => classOf(classes, sample))).toEqual([2, 3, 0, 0, 1]);
  });

  test("makes at most eight classes", () => {
    const pooled = Float64Array.from({ length: 50 }, (_, index) => index).map((each) => each + (each % 7) / 10);
    const all = Float64Array.of(...pooled, OVER_RANGE, UNSTEADY);
    const classes = cutClasses(all, () => 0.1);
    expect(classes.count).toBe(8);
    expect(Math.max(...all.map((sample) => classOf(classes, sample)))).toBe(7);
  });
});

describe("isSurprising()", () => {
  const isNamed = (index: number): boolean => index < 3;

  test("asks whether what is believed foresaw the reading", () => {
    const evidence = { key: "", likelihoods: Float64Array.of(0.9, 0.0001, 0.0001, 0.1), even: 0.1 };
    expect(isImprobable(evidence, [0.5, 0.4, 0.05, 0.05], isNamed)).toBe(false);
    expect(isImprobable(evidence, [0.0001, 0.5, 0.4, 0.0999], isNamed)).toBe(true);
  });

  test("something else excuses nothing", () => {
    const evidence = { key: "", likelihoods: Float64Array.of(0, 0, 0, 0.1), even: 0.1 };
    expect(isImprobable(evidence, [0.1, 0.1, 0.1, 0.7], isNamed)).toBe(true);
  });
});
