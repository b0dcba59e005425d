import type { JobRecord } from "./schema.ts";

/**
 * Joins two copies of one job that were worked on apart, such as in two windows, so that no event of either is lost: first what both
 * have, then the rest by time.
 *
 * @param mine One copy.
 * @param theirs The other copy, of the same job.
 * @returns The joined record; equal to the longer copy if one simply goes on from the other.
 * @throws RangeError if the copies are of different jobs.
 */
export function joinRecords(mine: JobRecord, theirs: JobRecord): JobRecord {
  if (mine.id !== theirs.id) throw new RangeError(`Cannot join records: "${mine.id}" and "${theirs.id}" are two jobs`);
  const known = new Set(mine.events.map((event) => event.id));
  const added = theirs.events.filter((event) => !known.has(event.id));
  if (added.length === 0) return mine;
  const inBoth = new Set(theirs.events.map((event) => event.id));
  const shared = mine.events.filter((event) => inBoth.has(event.id));
  const own = mine.events.filter((event) => !inBoth.has(event.id));
  return { ...mine, events: [...shared, ...byTime(own, added)] };
}

/** Merges two lists by time without changing the order inside either, so that what refers to an event stays behind it. */
function byTime(first: JobRecord["events"], second: JobRecord["events"]): JobRecord["events"] {
  const merged: JobRecord["events"] = [];
  let left = 0;
  let right = 0;
  while (left < first.length || right < second.length) {
    const a = first[left];
    const b = second[right];
    if (a && (!b || a.at <= b.at)) {
      merged.push(a);
      left += 1;
    } else if (b) {
      merged.push(b);
      right += 1;
    }
  }
  return merged;
}
