/** The best way to search a chain: where to look first, and how many looks it takes. */
interface AlphabeticPlan {
  /** Expected number of looks. */
  readonly looks: number;
  /** Position of the first look: it parts items 0 to `first` from the rest; undefined for a single item. */
  readonly first: number | undefined;
}

/**
 * The best order of looks along a chain in which each look only tells on which side of it the fault lies: the optimal alphabetic tree.
 *
 * @param weights Weight of each item of the chain, in order; they need not add up to 1.
 *
 * Source: R. Hassin and A. Sarid, Operations research applications of dichotomous search, European Journal of Operational Research
 * (2018), names the problem; the table over all runs of items is the textbook method.
 */
export function alphabeticPlan(weights: readonly number[]): AlphabeticPlan {
  const count = weights.length;
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  if (count < 2 || total <= 0) return { looks: 0, first: undefined };
  const sums = [0];
  for (const weight of weights) sums.push((sums.at(-1) ?? 0) + weight);
  const cost = Array.from({ length: count }, () => new Float64Array(count));
  let first = 0;
  for (let length = 2; length <= count; length++) {
    for (let from = 0; from + length <= count; from++) {
      const to = from + length - 1;
      let best = Infinity;
      for (let cut = from; cut < to; cut++) {
        const sum = (cost[from]?.[cut] ?? 0) + (cost[cut + 1]?.[to] ?? 0);
        if (sum < best - 1e-12) {
          best = sum;
          if (length === count) first = cut;
        }
      }
      const row = cost[from];
      if (row) row[to] = best + (sums[to + 1] ?? 0) - (sums[from] ?? 0);
    }
  }
  return { looks: (cost[0]?.[count - 1] ?? 0) / total, first };
}
