import { intAt } from "./typed-reads.ts";

/** Things sorted by group: the members of group k are `members[offsets[k]] .. members[offsets[k + 1] - 1]`, rising. */
export interface Groups {
  readonly offsets: Int32Array;
  readonly members: Int32Array;
}

/**
 * Sorts the numbers 0, 1, 2, ... by a group number that each of them has (counting sort).
 *
 * @param keys the group of each number; -1 leaves it out
 * @param groupCount number of groups; every key is below it
 * @returns the groups, members rising within each; O(numbers + groups)
 *
 * Source: counting sort, H. H. Seward, MIT Report R-232 (1954).
 */
export function groupByKey(keys: Int32Array, groupCount: number): Groups {
  const offsets = new Int32Array(groupCount + 1);
  for (let place = 0; place < keys.length; place++) {
    const key = intAt(keys, place);
    if (key >= 0) offsets[key + 1] = intAt(offsets, key + 1) + 1;
  }
  for (let group = 0; group < groupCount; group++) {
    offsets[group + 1] = intAt(offsets, group + 1) + intAt(offsets, group);
  }
  const members = new Int32Array(intAt(offsets, groupCount));
  const next = offsets.slice(0, groupCount);
  for (let place = 0; place < keys.length; place++) {
    const key = intAt(keys, place);
    if (key < 0) continue;
    const slot = intAt(next, key);
    members[slot] = place;
    next[key] = slot + 1;
  }
  return { offsets, members };
}
