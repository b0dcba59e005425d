import { minimalHittingSets } from "ohmward/diagnosis";
import { describe, expect, test } from "vitest";
import {
  comesOut,
  conflictWithin,
  consistency,
  readCircuit,
  type DigitalCircuit,
  type Scenario,
} from "../support/digital-circuit.ts";

/**
 * Scenarios with the true smallest sets of faulty gates. Source: the open diagnosis benchmark dxc26synth (J. de Kleer, I. Pill; MIT), its
 * metric and its published baselines for 74L85: nothing wrong 0.657, any gate 0.661, every gate that alone explains what is seen 0.749.
 */
const circuits = ["74L85", "74283", "74182"].map((name) => ({ name, circuit: readCircuit(name) }));
/** Sets up to this size are looked for; OHMWARD_WHOLE=1 takes larger ones. */
const MOST = process.env["OHMWARD_WHOLE"] === "1" ? 3 : 2;

type Sets = readonly (readonly string[])[];

/** The smallest sets of gates that explain what was seen: hitting sets of conflicts, which are found as candidates fail. */
function smallestSets(circuit: DigitalCircuit, scenario: Scenario): Sets {
  const isPossible = consistency(circuit, scenario);
  const gates = circuit.gates.map(({ id }) => id);
  const conflicts: (readonly string[])[] = [];
  for (let size = 0; size <= MOST;) {
    const candidates = minimalHittingSets(conflicts, size).filter((set) => set.length === size);
    const failing = candidates
      .map((set) => new Set(gates.filter((gate) => !set.includes(gate))))
      .find((sound) => !isPossible(sound));
    if (failing) conflicts.push(conflictWithin(failing, isPossible));
    else if (candidates.length > 0) return candidates;
    else size++;
  }
  return [];
}

/** How useful one diagnosis is where another one is true: 1 for the same, less for gates that are looked at in vain or missed. */
function utility(ours: readonly string[], truth: readonly string[], count: number): number {
  const vain = ours.filter((gate) => !truth.includes(gate)).length;
  const missed = truth.filter((gate) => !ours.includes(gate)).length;
  const [named, left] = [ours.length, count - ours.length];
  return 1 - (vain * (named + 1)) / (count * (vain + 1)) - (missed * (left + 1)) / (count * (missed + 1));
}

/** Utility of an answer over all pairs with the truth, as a share of that of the truth itself. */
function score(answer: Sets, { truth }: Scenario, count: number): number {
  const mean = (sets: Sets): number => {
    const all = sets.flatMap((ours) => truth.map((each) => utility(ours, each, count)));
    return all.reduce((sum, each) => sum + each, 0) / all.length;
  };
  return mean(answer) / mean(truth);
}

function meanScore(circuit: DigitalCircuit, answer: (scenario: Scenario) => Sets): number {
  const scores = circuit.scenarios.map((each) => score(answer(each), each, circuit.gates.length));
  return scores.reduce((sum, each) => sum + each, 0) / scores.length;
}

test.each(circuits)(
  "the smallest explanations of every scenario of $name are those of the benchmark",
  ({ circuit }) => {
    const within = circuit.scenarios.filter(({ truth }) => (truth[0]?.length ?? 0) <= MOST);
    expect(within.length).toBeGreaterThanOrEqual(20);
    for (const scenario of within) {
      const ours = smallestSets(circuit, scenario);
      const nameOf = (set: readonly string[]): string => set.toSorted().join("+");
      const named = new Set(ours.map(nameOf));
      const known = new Set(scenario.truth.map(nameOf));
      expect([scenario.id, [...known].filter((set) => !named.has(set))]).toEqual([scenario.id, []]);
      // Of three gates the benchmark leaves some sets out: trying every output shows that they explain it too, and no two of them do.
      const more = ours.filter((set) => !known.has(nameOf(set)));
      expect([scenario.id, MOST === 3 ? [] : more]).toEqual([scenario.id, []]);
      for (const set of ours) {
        const smaller = set.map((gate) => set.filter((other) => other !== gate));
        const comes = [set, ...smaller].map((each) => comesOut(circuit, scenario, each));
        expect([set, comes]).toEqual([set, [true, ...smaller.map(() => false)]]);
      }
      if (more.length === 0) expect(score(ours, scenario, circuit.gates.length)).toBeCloseTo(1, 12);
    }
  },
);

describe("the metric gives the published baselines of 74L85", () => {
  const circuit = readCircuit("74L85");
  const gates = circuit.gates.map(({ id }) => id);

  test.each<[string, number, (scenario: Scenario) => Sets]>([
    ["nothing wrong", 0.657, () => [[]]],
    ["any gate", 0.661, () => gates.map((gate) => [gate])],
    [
      "every gate that alone explains what is seen",
      0.749,
      (scenario) => {
        const isPossible = consistency(circuit, scenario);
        const alone = gates.filter((gate) => isPossible(new Set(gates.filter((other) => other !== gate))));
        return alone.length > 0 ? alone.map((gate) => [gate]) : [[]];
      },
    ],
  ])("%s: %f", (_, published, answer) => {
    expect(meanScore(circuit, answer)).toBeCloseTo(published, 2);
  });
});
