/**
 * Every smallest set that holds at least one member of each conflict: the sets of faults that explain all observations together when
 * each conflict lists what could explain one of them. Smallest means that no member can be left out.
 *
 * @param conflicts The conflicts; an empty one cannot be met, so there is no answer.
 * @param mostMembers Sets with more members than this are left out.
 * @returns The sets, members in rising order, smaller sets first.
 *
 * Source: R. Reiter, A theory of diagnosis from first principles, Artificial Intelligence 32 (1987) 57-95; worked out here by widening
 * partial sets one conflict at a time.
 * @example
 * ```ts
 * import { minimalHittingSets } from "ohmward/diagnosis";
 * expect(minimalHittingSets([["W74", "B6"], ["B6", "W78"]])).toEqual([["B6"], ["W74", "W78"]]);
 * ```
 */
export function minimalHittingSets<Member extends string | number>(
  conflicts: readonly (readonly Member[])[],
  mostMembers = Infinity,
): readonly (readonly Member[])[] {
  let sets: readonly (readonly Member[])[] = [[]];
  for (const conflict of conflicts) {
    const meeting = sets.filter((set) => set.some((member) => conflict.includes(member)));
    const missing = sets.filter((set) => !set.some((member) => conflict.includes(member)));
    const widened = missing
      .filter((set) => set.length < mostMembers)
      .flatMap((set) => [...new Set(conflict)].map((member) => [...set, member]));
    sets = withoutSupersets([...meeting, ...widened]);
  }
  return sets.map((set) => [...set].sort(compare)).sort((a, b) => a.length - b.length || compareLists(a, b));
}

function withoutSupersets<Member>(sets: readonly (readonly Member[])[]): readonly (readonly Member[])[] {
  const kept: (readonly Member[])[] = [];
  for (const set of [...sets].sort((a, b) => a.length - b.length)) {
    if (!kept.some((smaller) => smaller.every((member) => set.includes(member)))) kept.push(set);
  }
  return kept;
}

function compare(a: string | number, b: string | number): number {
  if (a === b) return 0;
  return a < b ? -1 : 1;
}

function compareLists(a: readonly (string | number)[], b: readonly (string | number)[]): number {
  const differing = a.findIndex((member, index) => member !== b[index]);
  return differing < 0 ? 0 : compare(a[differing] ?? 0, b[differing] ?? 0);
}
