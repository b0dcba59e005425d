import type { Item } from "../trace/index.ts";
import { contactCautions } from "./contact-cautions.ts";
import type { Contact } from "./contact.ts";
import { contactId, describeContact, unplugged } from "./describe-contact.ts";
import type { Verdict } from "./evaluate-rules.ts";
import type { ProbePoint, Refused, Relation } from "./findings.ts";
import { netOfContact } from "./judge-contact.ts";
import { METHODS } from "./method.ts";
import { itemsOnTheWay, wayTo } from "./net-walk.ts";
import { nodesOf, type ProbeContext } from "./probe-context.ts";
import type { Rule } from "./rule.ts";
import type { SafetyIndex } from "./safety-index.ts";

/**
 * The answer's words for an allowed contact.
 *
 * @param context The question.
 * @param contact The contact.
 * @param verdict What the rules allow there.
 * @throws RangeError if the method has no class.
 */
export function makePoint(
  context: ProbeContext,
  contact: Contact,
  verdict: Extract<Verdict, { kind: "permitted" }>,
): ProbePoint {
  const { harness } = context.index;
  const { method, reaching, socket, adapter, near } = contact;
  const probeClass = METHODS[method].class;
  if (probeClass === undefined) throw new RangeError(`Cannot offer "${method}": it has no class`);
  const unplug = unplugged(harness, contact)?.connector;
  const terminalMm = method === "front-probe" ? socket?.cavity.terminalMm : undefined;
  const net = netOfContact(context.index, contact);
  return {
    id: contactId(harness, contact),
    class: probeClass,
    method,
    how: describeContact(harness, contact, context.state),
    item: contact.item,
    ...addressOf(context, contact),
    ...relate(context, contact),
    ...(adapter === undefined ? {} : { adapter: adapter.id }),
    ...(terminalMm === undefined ? {} : { terminalMm }),
    ...(unplug === undefined ? {} : { unplug }),
    minutes: reaching.minutes,
    isEstimated: reaching.isEstimated,
    ...(reaching.remove === undefined ? {} : { remove: reaching.remove }),
    ...(reaching.zone === undefined ? {} : { zone: reaching.zone }),
    ...(near !== undefined && harness.segments.has(near) ? { segment: near } : {}),
    meters: verdict.meters,
    notFor: verdict.notFor.map(({ meter, rule }) => ({ meter, ...refusedBy(context.index, contact, rule) })),
    cautions: contactCautions(harness, contact, { state: context.state, net, meters: verdict.meters }),
  };
}

/** The row of the table as an answer names it; for airbag and high-voltage lines with what shows that this is one. */
export function refusedBy(index: SafetyIndex, contact: Contact, { id, reason, source }: Rule): Refused {
  const carried = contact.socket && index.carriedBy.get(contact.socket.connector.id);
  const guards = id === "airbag-or-high-voltage-beside" ? [...(carried?.guards ?? [])] : index.guardsAt(contact);
  const guard =
    guards.find(({ kind }) => kind === id) ?? (id === "airbag-or-high-voltage-beside" ? guards[0] : undefined);
  return { rule: id, reason: guard ? `${reason} It counts as one because ${guard.because}.` : reason, source };
}

/** The canonical address of the electrical point of a contact, if it touches one. */
export function addressOf({ index }: ProbeContext, { node }: Contact): { readonly at?: string } {
  const key = node === undefined ? undefined : index.harness.nodes[node]?.key;
  return key === undefined ? {} : { at: key };
}

function relate(
  context: ProbeContext,
  contact: Contact,
): { readonly relation: Relation; readonly between: readonly Item[] } {
  if (isAsked(context, contact)) return { relation: "itself", between: [] };
  const { asked, walk, index } = context;
  const { harness } = index;
  const way = wayTo(harness, walk, nearestNode(context, contact));
  const between = itemsOnTheWay(harness, way);
  const opened = unplugged(harness, contact)?.connector;
  const isParted =
    opened !== undefined &&
    way.edges.some((number) => {
      const edge = harness.edges[number];
      return edge?.kind === "mating" && edge.connector.id === opened;
    });
  if (isParted) return { relation: "parted", between };
  const { socket } = contact;
  const isSameJoint = socket && asked.joints.has(`${socket.connector.id}:${socket.cavity.id}`);
  return isSameJoint ? { relation: "itself", between: [] } : { relation: "same-net", between };
}

/** A wire or fuse counts as asked about only if it was named: all windows of a bus bar touch the same node. */
function isAsked({ asked }: ProbeContext, { node, edge }: Contact): boolean {
  return edge === undefined ? node !== undefined && asked.nodes.has(node) : asked.edges.has(edge);
}

function nearestNode({ index, walk }: ProbeContext, contact: Contact): number {
  const steps = (node: number): number => walk.steps.get(node) ?? Infinity;
  return nodesOf(index, contact).reduce((best, node) => (steps(node) < steps(best) ? node : best));
}
