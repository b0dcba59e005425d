import type { Evidence } from "../belief/evidence.ts";
import { minimalHittingSets } from "../conflicts/minimal-hitting-sets.ts";
import type { Hypothesis, HypothesisList } from "../candidates/hypothesis.ts";

/** At most so many pairs are added: each costs solutions in every state. */
const MOST_PAIRS = 60;
/** Of what explains one observation, the most likely so many are paired. */
const MOST_EXPLAINING = 14;
/** A hypothesis explains an observation if it gives it at least this share of the best likelihood. */
const EXPLAINS = 0.3;

/**
 * Adds pairs of faults that together explain what was found: the smallest sets that hold an explanation of every observation.
 *
 * @param single Hypotheses of one fault each.
 * @param evidence What codes and functions say of them.
 * @returns The same hypotheses, then the pairs, each a repair group of its own. A pair weighs the product of its two shares.
 */
export function withPairs(single: HypothesisList, evidence: readonly Evidence[]): HypothesisList {
  const { hypotheses, groups } = single;
  const total = hypotheses.reduce((sum, { weight }) => sum + weight, 0);
  const telling = evidence.filter(({ likelihoods }) => Math.max(...likelihoods) > 0.5);
  const conflicts = telling.map((each) => explaining(hypotheses, each));
  const sets = conflicts.length < 2 ? everyPair(hypotheses) : minimalHittingSets(conflicts.slice(0, 6), 2);
  const pairs = sets
    .flatMap(([first, second]) => {
      const [a, b] = [hypotheses[first ?? -1], hypotheses[second ?? -1]];
      if (!a || !b || a.group === b.group || a.isIntermittent || b.isIntermittent) return [];
      return [{ a, b, weight: (a.weight * b.weight) / total }];
    })
    .sort((one, other) => other.weight - one.weight)
    .slice(0, MOST_PAIRS);
  return {
    groups: [...groups, ...pairs.map(({ a, b }) => `${groups[a.group] ?? ""} and ${groups[b.group] ?? ""}`)],
    hypotheses: [
      ...hypotheses,
      ...pairs.map(({ a, b, weight }, index): Hypothesis => ({
        candidates: [...a.candidates, ...b.candidates],
        level: 0,
        faults: [...a.faults, ...b.faults],
        isIntermittent: false,
        weight,
        group: groups.length + index,
      })),
    ],
  };
}

function explaining(hypotheses: readonly Hypothesis[], { likelihoods }: Evidence): readonly number[] {
  const best = likelihoods.reduce((most, each) => Math.max(most, each), 0);
  return mostLikely(hypotheses, (index) => (likelihoods[index] ?? 0) >= EXPLAINS * best);
}

function everyPair(hypotheses: readonly Hypothesis[]): readonly (readonly number[])[] {
  const all = mostLikely(hypotheses, () => true);
  return all.flatMap((first, at) => all.slice(at + 1).map((second) => [first, second]));
}

function mostLikely(hypotheses: readonly Hypothesis[], isWanted: (index: number) => boolean): readonly number[] {
  return [...hypotheses.keys()]
    .filter(isWanted)
    .sort((a, b) => (hypotheses[b]?.weight ?? 0) - (hypotheses[a]?.weight ?? 0))
    .slice(0, MOST_EXPLAINING);
}
