import { entropyBits, minimalHittingSets } from "ohmward/diagnosis";
import { describe, expect, test } from "vitest";
import { minimalConflicts, minimalDiagnoses } from "../support/minimal-diagnoses.ts";

/** A part of the polybox: what goes in, what comes out. */
interface Gate {
  readonly id: string;
  readonly from: readonly [string, string];
  readonly to: string;
  readonly work: (a: number, b: number) => number;
}

/**
 * Three multipliers and two adders. Source: J. de Kleer, B. Williams, Artificial Intelligence 32 (1987) 97-130 (abstract read, numbers from
 * memory, all recalculated by brute force).
 */
const polybox: readonly Gate[] = [
  { id: "M1", from: ["A", "C"], to: "X", work: (a, b) => a * b },
  { id: "M2", from: ["B", "D"], to: "Y", work: (a, b) => a * b },
  { id: "M3", from: ["C", "E"], to: "Z", work: (a, b) => a * b },
  { id: "A1", from: ["X", "Y"], to: "F", work: (a, b) => a + b },
  { id: "A2", from: ["Y", "Z"], to: "G", work: (a, b) => a + b },
];
const inputs = { A: 3, B: 2, C: 2, D: 3, E: 3 };
const allParts = polybox.map((gate) => gate.id);
type Inside = "X" | "Y" | "Z";

/** Inner values that are tried out; the range holds every value that a good part can give from the observed ones. */
const tried = Array.from({ length: 41 }, (_, index) => index - 20);

/** Whether observations are possible: for some inner values every part that does its work wrongly is among the failed. */
function polyboxCanBe(observed: { readonly X?: number }): (failed: ReadonlySet<string>) => boolean {
  const wrongSets = new Map<string, readonly string[]>();
  for (const x of observed.X === undefined ? tried : [observed.X]) {
    for (const y of tried) {
      for (const z of tried) {
        const values: Readonly<Record<string, number>> = { ...inputs, X: x, Y: y, Z: z, F: 10, G: 12 };
        const wrong = polybox
          .filter(({ from, to, work }) => work(values[from[0]] ?? NaN, values[from[1]] ?? NaN) !== values[to])
          .map(({ id }) => id);
        wrongSets.set(wrong.join(), wrong);
      }
    }
  }
  return (failed) => [...wrongSets.values()].some((wrong) => wrong.every((id) => failed.has(id)));
}

describe("the polybox with F = 10 and G = 12", () => {
  const canBe = polyboxCanBe({});

  test("has two smallest conflicts and four smallest diagnoses", () => {
    expect(minimalConflicts(allParts, canBe)).toEqual([
      ["M1", "M2", "A1"],
      ["M1", "M3", "A1", "A2"],
    ]);
    expect(minimalDiagnoses(allParts, canBe)).toEqual([["M1"], ["A1"], ["M2", "M3"], ["M2", "A2"]]);
  });

  test("has 27 diagnoses with all larger sets counted", () => {
    const smallest = minimalDiagnoses(allParts, canBe);
    const subsets = Array.from({ length: 32 }, (_, mask) => allParts.filter((_, index) => mask & (1 << index)));
    expect(subsets.filter((set) => smallest.some((small) => small.every((part) => set.includes(part))))).toHaveLength(
      27,
    );
  });

  test("the diagnoses are the hitting sets of the conflicts", () => {
    const conflicts = minimalConflicts(allParts, canBe);
    expect(new Set(minimalHittingSets(conflicts).map((set) => set.join()))).toEqual(
      new Set(minimalDiagnoses(allParts, canBe).map((set) => [...set].sort().join())),
    );
  });

  // Source of the three cases: lecture slides "Knowledge Engineering", Edinburgh, slide 10 (read).
  test.each([
    [4, [["M1"]]],
    [6, [["A1"], ["M2", "M3"], ["M2", "A2"]]],
    [
      5,
      [
        ["M1", "A1"],
        ["M1", "M2", "M3"],
        ["M1", "M2", "A2"],
      ],
    ],
  ])("a probe at X that reads %i leaves %j", (x, left) => {
    expect(minimalDiagnoses(allParts, polyboxCanBe({ X: x }))).toEqual(left);
  });
});

/** Failing outputs are taken as equally likely: 0 to 19 for a multiplier, 0 to 39 for an adder; each part fails with chance 0.01. Own assumption. */
function readingWeights(point: Inside): ReadonlyMap<number, number> {
  const weights = new Map<number, number>();
  for (let x = 0; x < 20; x++) {
    for (let y = 0; y < 20; y++) {
      for (let z = 0; z < 20; z++) {
        const values: Readonly<Record<string, number>> = { ...inputs, X: x, Y: y, Z: z, F: 10, G: 12 };
        const weight = polybox.reduce((product, { id, from, to, work }) => {
          const isRight = work(values[from[0]] ?? NaN, values[from[1]] ?? NaN) === values[to];
          return product * (0.01 / (id.startsWith("M") ? 20 : 40) + (isRight ? 0.99 : 0));
        }, 1);
        const reading = values[point] ?? NaN;
        weights.set(reading, (weights.get(reading) ?? 0) + weight);
      }
    }
  }
  return weights;
}

describe("entropyBits() of the next reading of the polybox", () => {
  // Own assumption of the outputs, calculated apart from this code: 0.9582, 0.0063 and 0.0045 bit.
  test.each([
    ["X", 0.9582],
    ["Y", 0.0063],
    ["Z", 0.0045],
  ] as const)("at %s is %d", (point, bits) => {
    expect(entropyBits([...readingWeights(point).values()])).toBeCloseTo(bits, 4);
  });

  test("X reads 4 or 6 with the calculated chances, so it is the best probe", () => {
    const weights = readingWeights("X");
    const total = [...weights.values()].reduce((sum, weight) => sum + weight, 0);
    expect((weights.get(4) ?? 0) / total).toBeCloseTo(0.6643, 4);
    expect((weights.get(6) ?? 0) / total).toBeCloseTo(0.3327, 4);
  });
});

describe("the full adder with inputs 1, 0, 1, sum 1 and carry 0", () => {
  /** Source: R. Reiter, Artificial Intelligence 32 (1987) 57-95 (abstract read, example from memory, recalculated by simulating the gates). */
  const gates = ["X1", "X2", "A1", "A2", "O1"];
  const canBe = (failed: ReadonlySet<string>): boolean => {
    const either = (id: string, value: number): readonly number[] => (failed.has(id) ? [0, 1] : [value]);
    for (const x1 of either("X1", 1 ^ 0)) {
      for (const sum of either("X2", x1 ^ 1)) {
        for (const a1 of either("A1", 1 & 0)) {
          for (const a2 of either("A2", x1 & 1)) {
            for (const carry of either("O1", a1 | a2)) if (sum === 1 && carry === 0) return true;
          }
        }
      }
    }
    return false;
  };

  test("has the published conflicts and diagnoses", () => {
    expect(minimalConflicts(gates, canBe)).toEqual([
      ["X1", "X2"],
      ["X1", "A2", "O1"],
    ]);
    expect(minimalDiagnoses(gates, canBe)).toEqual([["X1"], ["X2", "A2"], ["X2", "O1"]]);
  });
});

describe("minimalHittingSets()", () => {
  /** Source: R. Reiter 1987, example of a list of conflicts, from memory, recalculated over all subsets. */
  const conflicts = [
    [2, 4, 5],
    [1, 2, 3],
    [1, 3, 5],
    [2, 4, 6],
    [2, 4],
    [2, 3, 5],
    [1, 6],
  ];

  test("gives the published sets", () => {
    expect(minimalHittingSets(conflicts)).toEqual([
      [1, 2],
      [1, 3, 4],
      [1, 4, 5],
      [2, 3, 6],
      [2, 5, 6],
      [3, 4, 6],
    ]);
  });

  test("agrees with trying every subset", () => {
    const subsets = Array.from({ length: 64 }, (_, mask) =>
      [1, 2, 3, 4, 5, 6].filter((member) => mask & (1 << (member - 1))),
    );
    const hits = subsets.filter((set) =>
      conflicts.every((conflict) => conflict.some((member) => set.includes(member))),
    );
    const smallest = hits.filter(
      (set) => !hits.some((other) => other.length < set.length && other.every((m) => set.includes(m))),
    );
    expect(new Set(minimalHittingSets(conflicts).map((set) => set.join()))).toEqual(
      new Set(smallest.map((set) => set.join())),
    );
  });

  test("keeps to the size asked for and has no answer to an empty conflict", () => {
    expect(minimalHittingSets(conflicts, 2)).toEqual([[1, 2]]);
    expect(minimalHittingSets([[1], []])).toEqual([]);
    expect(minimalHittingSets([])).toEqual([[]]);
  });
});
