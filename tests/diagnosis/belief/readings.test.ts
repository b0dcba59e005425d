import {
  classOf,
  cutClasses,
  FLOATING,
  fromScale,
  isSurprising,
  OVER_RANGE,
  readingLikelihoods,
  toScale,
  UNSTEADY,
  type ScaleModel,
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

const volts = (...lists: readonly (readonly number[])[]): ScaleModel => ({
  kind: "scale",
  unit: "V",
  samples: lists.map((list) => Float64Array.from(list, (each) => toScale(each, "V"))),
  bandwidth: 0.05,
});

describe("readingLikelihoods()", () => {
  test("speaks for the hypothesis that foresaw the value", () => {
    const { likelihoods, even } = readingLikelihoods(volts([12.4, 12.6], [0.02], []), { kind: "value", value: 12.5 });
    expect(likelihoods[0]).toBeGreaterThan(5);
    expect(likelihoods[1]).toBeLessThan(1e-9);
    expect(likelihoods[2]).toBe(even);
  });

  test("is a density: over the whole axis it adds up to 1", () => {
    const model = volts([5, 5.1, 0.5]);
    let sum = 0;
    for (let at = -2; at < 8; at += 0.001) {
      sum += (readingLikelihoods(model, { kind: "value", value: fromScale(at, "V") }).likelihoods[0] ?? 0) * 0.001;
    }
    expect(sum).toBeCloseTo(1, 6);
  });

  test("tells over range, unsteady and floating apart", () => {
    const model: ScaleModel = {
      kind: "scale",
      unit: "Ω",
      samples: [OVER_RANGE, UNSTEADY, FLOATING, 4].map((each) => Float64Array.of(each)),
      bandwidth: 0.05,
    };
    expect([...readingLikelihoods(model, { kind: "over-range" }).likelihoods]).toEqual([1, 0, 0, 0]);
    const unsteady = readingLikelihoods(model, { kind: "unsteady" }).likelihoods;
    expect([...unsteady].map((each) => each > 0)).toEqual([false, true, true, false]);
    expect(unsteady[1]).toBeGreaterThan(unsteady[2] ?? 1);
    const zero = readingLikelihoods({ ...model, unit: "V" }, { kind: "value", value: 0 }).likelihoods;
    expect(zero[2]).toBeGreaterThan(zero[1] ?? 1);
  });
});

describe("cutClasses()", () => {
  test("cuts at the largest gaps, not inside what a meter cannot tell apart", () => {
    const pooled = Float64Array.from([0, 0.01, 1, 1.02, 5, 5.01]);
    const classes = cutClasses(pooled, 0.1);
    expect(classes.count).toBe(3);
    expect([...pooled].map((sample) => classOf(classes, sample))).toEqual([0, 0, 1, 1, 2, 2]);
  });

  test("gives the special marks classes of their own and takes floating for near zero", () => {
    const pooled = Float64Array.from([OVER_RANGE, UNSTEADY, FLOATING, 0, 3]);
    const classes = cutClasses(pooled, 0.1);
    expect(classes.count).toBe(4);
    expect([...pooled].map((sample) => classOf(classes, sample))).toEqual([2, 3, 0, 0, 1]);
  });

  test("makes at most eight classes", () => {
    const pooled = Float64Array.from({ length: 50 }, (_, index) => index).map((each) => each + (each % 7) / 10);
    const all = Float64Array.of(...pooled, OVER_RANGE, UNSTEADY);
    const classes = cutClasses(all, 0.1);
    expect(classes.count).toBe(8);
    expect(Math.max(...all.map((sample) => classOf(classes, sample)))).toBe(7);
  });
});

describe("isSurprising()", () => {
  const named = (index: number): boolean => index < 3;

  test("asks whether anything alive foresaw the reading", () => {
    const evidence = { key: "", likelihoods: Float64Array.of(0.9, 0.001, 0.001, 0.1), even: 0.1 };
    expect(isSurprising(evidence, [0.5, 0.4, 0.05, 0.05], named)).toBe(false);
    expect(isSurprising(evidence, [0.001, 0.5, 0.4, 0.099], named)).toBe(true);
  });

  test("something else excuses nothing, and neither does a reading that nobody foresaw", () => {
    const evidence = { key: "", likelihoods: Float64Array.of(0, 0, 0, 0.1), even: 0.1 };
    expect(isSurprising(evidence, [0.1, 0.1, 0.1, 0.7], named)).toBe(true);
  });
});
