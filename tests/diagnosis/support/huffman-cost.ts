/**
 * Least expected number of questions if every question could part the hypotheses in any way: the bound that a real set of tests may
 * reach but not pass.
 *
 * @param weights Weights of the hypotheses; they need not add up to 1.
 * @param arity How many outcomes a question has, at least 2.
 * @returns Expected number of questions.
 *
 * Source: D. Huffman, A method for the construction of minimum-redundancy codes, Proceedings of the IRE 40 (1952).
 */
export function huffmanCost(weights: readonly number[], arity = 2): number {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  if (weights.length < 2 || total <= 0) return 0;
  const rest = [...weights];
  // With more than two outcomes the first question may have to do with fewer, or places at the top stay unused.
  while ((rest.length - 1) % (arity - 1) !== 0) rest.push(0);
  let sum = 0;
  while (rest.length > 1) {
    rest.sort((a, b) => b - a);
    const joined = rest.splice(-arity).reduce((all, weight) => all + weight, 0);
    sum += joined;
    rest.push(joined);
  }
  return sum / total;
}
