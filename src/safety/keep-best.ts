import { naturalOrder } from "../base/index.ts";
import type { Contact } from "./contact.ts";
import type { Judged } from "./probe-context.ts";

/**
 * Leaves one contact of each wire and method: the stretch of harness or, failing that, the end where it is allowed with the fewest dangers and minutes, or the
 * first refusal. At a stud the clip gives way where a tip is allowed.
 *
 * @param judged Contacts with their verdicts.
 */
export function keepBest(judged: readonly Judged[]): readonly Judged[] {
  const kept = new Map<string, Judged>();
  for (const each of judged) {
    const key = keyOf(each.contact);
    const before = kept.get(key);
    if (!before || isBetter(each, before)) kept.set(key, each);
  }
  return [...kept.values()].filter(({ contact }) => {
    if (contact.method !== "clip") return true;
    return kept.get(keyOf({ ...contact, method: "tip" }))?.verdict.kind !== "permitted";
  });
}

function keyOf({ method, node, edge, adapter }: Contact): string {
  return `${method} ${node ?? ""} ${edge ?? ""} ${adapter?.id ?? ""}`;
}

function isBetter(one: Judged, other: Judged): boolean {
  if (one.verdict.kind !== other.verdict.kind) return one.verdict.kind === "permitted";
  if (one.verdict.kind === "refused") return false;
  const [a, b] = [one.contact, other.contact];
  const order =
    Number(a.reaching.isEstimated && a.place === "wire") - Number(b.reaching.isEstimated && b.place === "wire") ||
    a.reaching.hazards.length - b.reaching.hazards.length ||
    a.reaching.minutes - b.reaching.minutes ||
    naturalOrder(a.near ?? "", b.near ?? "");
  return order < 0;
}
