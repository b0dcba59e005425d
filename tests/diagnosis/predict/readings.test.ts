import { fromScale, isMeterCheck, OVER_RANGE, toleranceOf, toScale, UNKNOWN, type Hypothesis } from "ohmward/diagnosis";
import { readMeter } from "ohmward/simulation";
import { seededRandom } from "ohmward/base";
import { describe, expect, test } from "vitest";
import { begin, demo, newJob } from "../demo-job.ts";

const harness = demo();

describe("readings of a workup, worked out on the part of the machine concerned", () => {
  test.each([
    [["FE111", "FE141"], []],
    [["FE411", "FC511"], []],
    [[], ["M1"]],
    [["FE211"], []],
  ] as const)("are those of the whole machine, one reading at a time (%j %j)", (codes, bad) => {
    const { model } = begin(newJob(codes, bad));
    const random = seededRandom(5);
    const checks = random.shuffle([...model.checks.values()].filter(isMeterCheck)).slice(0, 30);
    // Every sort of fault in turn: a bridge reaches a neighbour outside the circuits, a short blows a fuse before it.
    const turns = bySort(model.hypotheses);
    let compared = 0;
    for (const [turn, check] of checks.entries()) {
      const hypothesis = random.pick(turns[turn % turns.length] ?? [0]);
      const [point = NaN] = model.readings(check, [hypothesis]).faulty;
      const shown = readMeter(harness, {
        operatingConditions: {
          state: check.need.state,
          unplugged: check.need.unplugged,
          faults: model.hypotheses[hypothesis]?.faults ?? [],
        },
        probe: { kind: check.kind, red: check.red.at ?? "", black: check.black.at ?? "" },
        compareWith: [],
      });
      // Ohms are not read where the fault itself brings voltage to the points.
      if (point === UNKNOWN) expect(shown.kind, check.key).toBe("refused");
      if (shown.kind === "overload") expect(point).toBe(OVER_RANGE);
      if (shown.kind !== "value" || !Number.isFinite(point)) continue;
      compared += 1;
      // The meter's own 10 Mohm is left out of the workup: up to 3 % behind the weakest pull resistors.
      const unit = check.kind === "dc-voltage" ? "V" : "Ω";
      const size = Math.abs(shown.value);
      expect(Math.abs(fromScale(point, unit) - shown.value), check.key).toBeLessThanOrEqual(0.03 * size + 1e-6);
    }
    expect(compared).toBeGreaterThan(8);
  });
});

/** Positions of the hypotheses that put the same sorts of faults into the solver. */
function bySort(hypotheses: readonly Hypothesis[]): readonly (readonly number[])[] {
  const sorts = new Map<string, number[]>();
  hypotheses.forEach(({ faults }, index) => {
    const sort = faults.map(({ kind }) => kind).join();
    const known = sorts.get(sort);
    if (known) known.push(index);
    else sorts.set(sort, [index]);
  });
  return [...sorts.values()];
}

describe("spreadOf()", () => {
  // Held against the bands that the meter functions work out part by part; both count two standard deviations.
  test.each([
    ["KOEO", "dc-voltage", "G2+", "G2-"],
    ["KOEO", "dc-voltage", "A1.X1:36", "A1.X1:17"],
    ["KOEO", "dc-voltage", "A1.X1:39", "A1.X1:17"],
    ["KOEO", "dc-voltage", "B3.X:1", "B3.X:2"],
    ["CRANK", "dc-voltage", "A3.X1:5", "G2-"],
    ["CRANK", "dc-voltage", "G2+", "M1.30"],
    ["OFF", "resistance", "XD1:C", "XD1:D"],
  ] as const)("in %s, %s from %s to %s is near the band of the meter", (state, kind, red, black) => {
    const shown = readMeter(harness, { operatingConditions: { state }, probe: { kind, red, black }, compareWith: [] });
    if (shown.kind !== "value") throw new Error(shown.kind);
    const unit = kind === "dc-voltage" ? "V" : "Ω";
    const point = toScale(shown.value, unit);
    const band = (toScale(shown.high, unit) - toScale(shown.low, unit)) / 4;
    expect(toleranceOf(point, unit) / band).toBeGreaterThan(0.4);
    // A resistor of 1 % or a quiet regulator is known better than the usual figure says; the usual one is the cautious one.
    expect(toleranceOf(point, unit) / band).toBeLessThan(12);
  });
});
