/** A queue that always gives its lowest member first. */
export interface OrderedHeap<T> {
  readonly push: (member: T) => void;
  /** Takes the lowest member out; `undefined` if empty. */
  readonly pop: () => T | undefined;
}

/**
 * Makes an empty binary heap.
 *
 * @param compare below 0 if the first comes before the second; two different members should never be equal, else their
 *   order depends on when they came
 * @returns the heap; push and pop cost O(log size) comparisons
 *
 * Source: J. W. J. Williams, "Algorithm 232: heapsort", CACM 7 (1964) 347-348.
 */
export function orderedHeap<T>(compare: (first: T, second: T) => number): OrderedHeap<T> {
  const members: T[] = [];

  function push(member: T): void {
    let place = members.length;
    members.push(member);
    while (place > 0) {
      const above = (place - 1) >> 1;
      const parent = members[above];
      if (parent === undefined || compare(parent, member) <= 0) break;
      members[place] = parent;
      place = above;
    }
    members[place] = member;
  }

  /** Lets a member sink from the top of the heap to its place. */
  function sink(member: T): void {
    let place = 0;
    for (;;) {
      let below = 2 * place + 1;
      let child = members[below];
      const other = members[below + 1];
      if (child === undefined) break;
      if (other !== undefined && compare(other, child) < 0) {
        child = other;
        below++;
      }
      if (compare(member, child) <= 0) break;
      members[place] = child;
      place = below;
    }
    members[place] = member;
  }

  function pop(): T | undefined {
    const top = members[0];
    const last = members.pop();
    if (last !== undefined && members.length > 0) sink(last);
    return top;
  }

  return { push, pop };
}
