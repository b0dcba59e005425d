import fc from "fast-check";
import { cautiousLikelihoods, CAUTION, topAmbiguityGroups, updateBelief, type Evidence } from "ohmward/diagnosis";
import { describe, expect, test } from "vitest";

const share = fc.double({ min: 0, max: 1, noNaN: true });
const evidence = (count: number): fc.Arbitrary<readonly Evidence[]> =>
  fc
    .array(fc.tuple(fc.array(share, { minLength: count, maxLength: count }), fc.boolean()), { maxLength: 8 })
    .map((list) =>
      list.map(([likelihoods, isDoubtful], index) => ({
        key: `check ${index}`,
        likelihoods: Float64Array.from(likelihoods),
        even: 0.125,
        isDoubtful,
      })),
    );
const job = fc.integer({ min: 2, max: 12 }).chain((count) =>
  fc.record({
    priors: fc.array(fc.double({ min: 1e-3, max: 1, noNaN: true }), { minLength: count, maxLength: count }),
    readings: evidence(count),
    mixed: fc.infiniteStream(fc.nat()),
  }),
);

describe("laws of updateBelief()", () => {
  test("probabilities add up to 1 and none is 0", () => {
    fc.assert(
      fc.property(job, ({ priors, readings }) => {
        const belief = updateBelief(priors, readings);
        expect(belief.reduce((sum, each) => sum + each, 0)).toBeCloseTo(1, 12);
        expect(Math.min(...belief)).toBeGreaterThan(0);
      }),
      { seed: 21, numRuns: 300 },
    );
  });

  test("the order of independent readings does not matter", () => {
    fc.assert(
      fc.property(job, ({ priors, readings, mixed }) => {
        const keys: Iterator<number, unknown> = mixed[Symbol.iterator]();
        const order = readings.map((reading) => ({ reading, at: Number(keys.next().value) }));
        const shuffled = order.sort((a, b) => a.at - b.at).map(({ reading }) => reading);
        const one = updateBelief(priors, readings);
        updateBelief(priors, shuffled).forEach((each, index) => expect(each).toBeCloseTo(one[index] ?? NaN, 10));
      }),
      { seed: 22, numRuns: 300 },
    );
  });

  test("a repeat is no new evidence, and a later reading of the same check takes the place of the first", () => {
    fc.assert(
      fc.property(job, ({ priors, readings }) => {
        const again = [...readings, ...readings].filter((_, index) => index % 2 === 0 || index < readings.length);
        expect(updateBelief(priors, again)).toEqual(updateBelief(priors, readings));
        const [first] = readings;
        if (!first) return;
        const other = { ...first, likelihoods: first.likelihoods.map((each) => 1 - each) };
        expect(updateBelief(priors, [...readings, other])).toEqual(updateBelief(priors, [other, ...readings.slice(1)]));
      }),
      { seed: 23, numRuns: 300 },
    );
  });

  test("one reading never changes the odds of two hypotheses by more than the cap", () => {
    fc.assert(
      fc.property(job, ({ priors, readings }) => {
        for (const reading of readings) {
          const after = updateBelief(priors, [reading]);
          const factors = priors.map((prior, index) => (after[index] ?? 0) / prior);
          expect(Math.max(...factors) / Math.min(...factors)).toBeLessThan(CAUTION.mostFactor * (1 + 1e-9));
        }
      }),
      { seed: 24, numRuns: 300 },
    );
  });
});

describe("cautiousLikelihoods()", () => {
  test("softens by the share of wrong readings: (1 - e) L + e / K, then caps", () => {
    const soft = cautiousLikelihoods({ key: "", likelihoods: Float64Array.of(0.5, 0.25, 0), even: 0.25 });
    const [a, b, c] = [0.97 * 0.5 + 0.03 * 0.25, 0.97 * 0.25 + 0.03 * 0.25, 0.03 * 0.25];
    expect([...soft].map((each) => Number(each.toFixed(12)))).toEqual(
      [1, b / a, c / a].map((each) => Number(each.toFixed(12))),
    );
    const capped = cautiousLikelihoods({ key: "", likelihoods: Float64Array.of(40, 0), even: 0.1 });
    expect(capped[1]).toBe(1 / CAUTION.mostFactor);
  });

  test("lets a doubtful reading say less", () => {
    const sure = { key: "", likelihoods: Float64Array.of(1, 0), even: 0.5 };
    const doubtful = cautiousLikelihoods({ ...sure, isDoubtful: true });
    expect(doubtful[1] ?? 0).toBeGreaterThan(cautiousLikelihoods(sure)[1] ?? 1);
  });
});

describe("an intermittent fault that behaves at the moment of the check", () => {
  // Source: J. de Kleer (2007, 2009), R. Abreu and others (2009): a part that fails with p = 0.1 behaves with g = 0.8; the numbers were calculated.
  test.each([
    [1, 0.0816],
    [5, 0.0351],
    [10, 0.0118],
    [15, 0.0039],
  ])("is believed less and less after %i good readings: %d", (count, left) => {
    const readings = Array.from({ length: count }, (_, index) => ({
      key: `moment ${index}`,
      likelihoods: Float64Array.of(0.8, 1),
      even: 0,
    }));
    const plain = { wrongShare: 0, doubtfulShare: 0, mostFactor: Infinity };
    expect(updateBelief([0.1, 0.9], readings, plain)[0]).toBeCloseTo(left, 4);
  });
});

describe("leadingGroups()", () => {
  test("adds up by repair group, largest first", () => {
    expect(topAmbiguityGroups([0.2, 0.3, 0.4, 0.1, 0], [0, 0, 1, 2, 3])).toEqual([
      { group: 0, share: 0.5 },
      { group: 1, share: 0.4 },
      { group: 2, share: 0.1 },
    ]);
  });
});
