/** A repair group with the probability that its repair mends the fault. */
export interface GroupShare {
  readonly group: number;
  readonly share: number;
}

/**
 * Adds up probabilities by repair group.
 *
 * @param belief Probability of each hypothesis.
 * @param groups Group of each hypothesis.
 * @returns Groups with a share above 0, the largest first.
 */
export function leadingGroups(belief: ArrayLike<number>, groups: ArrayLike<number>): readonly GroupShare[] {
  const shares = new Map<number, number>();
  for (let index = 0; index < belief.length; index++) {
    const group = groups[index] ?? -1;
    shares.set(group, (shares.get(group) ?? 0) + (belief[index] ?? 0));
  }
  return [...shares]
    .map(([group, share]) => ({ group, share }))
    .filter(({ share }) => share > 0)
    .sort((a, b) => b.share - a.share || a.group - b.group);
}
