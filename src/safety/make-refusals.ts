import { naturalOrder } from "../base/index.ts";
import { contactId } from "./describe-contact.ts";
import type { ProbePoint, ProbeRefusal } from "./findings.ts";
import { addressOf, refusedBy } from "./make-point.ts";
import type { Contact } from "./contact.ts";
import { wayTo, walkNet, type NetWalk } from "./net-walk.ts";
import { distanceOf, nodesOf, type Judged, type ProbeContext } from "./probe-context.ts";

/** An allowed contact with its answer. */
export interface Allowed {
  readonly contact: Contact;
  readonly point: ProbePoint;
}

/**
 * The refusals of an answer, nearest to the thing asked about first, each with the nearest allowed point: fewest things between, of
 * equals the better ranked, and one that takes the same kind of reading if there is any.
 *
 * @param context The question.
 * @param judged Everything that was judged.
 * @param allowed The allowed points, best first.
 */
export function makeRefusals(
  context: ProbeContext,
  judged: readonly Judged[],
  allowed: readonly Allowed[],
): readonly ProbeRefusal[] {
  const { harness } = context.index;
  const forContact = nearestOf(
    context,
    allowed.filter(({ point }) => point.class !== "P0"),
  );
  const forClamp = nearestOf(
    context,
    allowed.filter(({ point }) => point.class === "P0"),
  );
  const refusals = judged.flatMap(({ contact, verdict }) => {
    if (verdict.kind === "permitted") return [];
    const finders = contact.method === "clamp" ? [forClamp, forContact] : [forContact, forClamp];
    const instead = finders.map((find) => find(contact)).find((id) => id !== undefined);
    const refusal: ProbeRefusal = {
      id: contactId(harness, contact),
      method: contact.method,
      item: contact.item,
      ...addressOf(context, contact),
      ...refusedBy(context.index, contact, verdict.rule),
      ...(instead === undefined ? {} : { instead }),
    };
    return [{ refusal, distance: distanceOf(context, contact) }];
  });
  refusals.sort((a, b) => a.distance - b.distance || naturalOrder(a.refusal.id, b.refusal.id));
  return refusals.map(({ refusal }) => refusal);
}

/** Finds for a contact the id of the nearest of some allowed points. */
function nearestOf(context: ProbeContext, allowed: readonly Allowed[]): (contact: Contact) => string | undefined {
  const { index } = context;
  // Best ranked first, so that they win where the distance is the same.
  const pointAt = new Map<number, string>();
  for (const { contact, point } of allowed)
    for (const node of nodesOf(index, contact)) if (!pointAt.has(node)) pointAt.set(node, point.id);
  const walk: NetWalk = walkNet(index.harness, pointAt.keys());
  return (contact) => {
    const steps = (node: number): number => walk.steps.get(node) ?? Infinity;
    const nearest = nodesOf(index, contact).reduce((best, node) => (steps(node) < steps(best) ? node : best));
    if (!walk.steps.has(nearest)) return undefined;
    return pointAt.get(wayTo(index.harness, walk, nearest).nodes[0] ?? -1);
  };
}
