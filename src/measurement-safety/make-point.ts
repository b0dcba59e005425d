import { formatNumber, unreachable } from "../base/index.ts";
import { sideKey, type Harness, type State } from "../harness-model/index.ts";
import type { Item } from "../connectivity/index.ts";
import { contactCautions } from "./cautions.ts";
import type { Verdict } from "./evaluate-rules.ts";
import type { Contact, ProbePoint, Refused, Relation } from "./findings.ts";
import { netOfContact } from "./judge-contact.ts";
import { itemsOnTheWay, wayTo } from "./net-walk.ts";
import { nodesOf, type ProbeContext } from "./probe-context.ts";
import { METHODS, type Rule } from "./rule.ts";
import type { SafetyIndex } from "./safety-index.ts";

/**
 * The answer's words for an allowed contact.
 *
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
  return { rule: id, reason: guard ? `${reason} Reason: ${guard.because}.` : reason, source };
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

/** The id of a contact inside one answer: method, place and, where it matters, adapter or fuse: `in-line@B3.X.harness:1~TL-3-0.64`. */
export function contactId(harness: Harness, contact: Contact): string {
  const at = contact.node === undefined ? contact.item.id : (harness.nodes[contact.node]?.key ?? "");
  const through = contact.adapter?.id ?? (contact.place === "fuse" ? contact.item.id : undefined);
  return `${contact.method}@${at}${through === undefined ? "" : `~${through}`}`;
}

/** The connector that has to be parted for a contact, and the half that is taken away by it; undefined if it stays mated. */
function unplugged(harness: Harness, { method, socket }: Contact): { connector: string; away: string } | undefined {
  if (method !== "front-probe" || !socket) return undefined;
  const away = harness.fitted.sides.get(socket.connector.id)?.find((side) => side.id !== socket.side.id);
  return away && { connector: socket.connector.id, away: sideKey(socket.connector, away) };
}

/** What to do, as a sentence or two. */
function describeContact(harness: Harness, contact: Contact, state: State): string {
  const { method, item, adapter, socket } = contact;
  const at = contact.node === undefined ? item.id : (harness.nodes[contact.node]?.key ?? item.id);
  const inState = `Bring the machine to "${state.label}". Measure`;
  switch (method) {
    case "clamp":
      return `Put the current clamp round wire ${item.id} only${near(harness, contact)}.`;
    case "tip":
      return `Put the probe or a clip on the exposed metal of ${at}.`;
    case "clip":
      return `Stop the machine. Connect a clip lead to ${at} and lay it to a safe place. ${inState} from there.`;
    case "fuse-window":
      return `Put the probe on the fuse test point of ${item.id}, on the side of ${at}. Leave the fuse in.`;
    case "mating-adapter":
      return `Connect ${adapter?.label ?? "the mating adapter"} to ${socket?.connector.id ?? at}. Measure at pin ${socket?.cavity.id ?? at}.`;
    case "in-line":
      return `Turn the key off. Connect ${adapter?.label ?? "the breakout lead"} between the two sides of ${socket?.connector.id ?? at}. ${inState} at ${at}. The circuit stays closed.`;
    case "relay-extension":
      return `Turn the key off. Pull the relay. Fit ${adapter?.label ?? "the relay breakout adapter"} and put the relay on top. ${inState} at ${at}. The circuit stays closed.`;
    case "front-probe":
      return frontProbe(harness, contact, `${inState} at ${at}`);
    case "screw":
      return `Put the probe on the head of the screw or nut at ${at}, not on the blade or ring terminal.`;
    case "back-probe":
      return `Back-probing: a probe pushed into ${at} from the wire-entry side.`;
    case "pierce":
      return `Insulation piercing: a needle through the insulation of ${item.id}.`;
    case "tip-in-socket":
      return `A probe pushed into cavity ${at}.`;
    default:
      return unreachable(method);
  }
}

function near(harness: Harness, { near: where }: Contact): string {
  if (where === undefined) return "";
  return harness.segments.has(where) ? `, in segment ${where}` : `, close to ${where}`;
}

function frontProbe(harness: Harness, contact: Contact, read: string): string {
  const { socket } = contact;
  if (!socket) return "";
  const size = socket.cavity.terminalMm;
  const lead = `a test lead with a ${size === undefined ? "" : `${formatNumber(size, 2)} mm `}${counterpart(socket.side.contacts)} of the same series`;
  const away = unplugged(harness, contact);
  if (!away) return `Insert ${lead} into cavity ${socket.cavity.id} from the mating face. ${read}.`;
  const isDevice = away.away.endsWith(".device") && socket.connector.component !== undefined;
  const lost = isDevice
    ? `${socket.connector.component ?? ""} is disconnected`
    : `everything behind ${away.away} is disconnected`;
  return `Turn the key off. Disconnect ${away.connector}. Insert ${lead} into cavity ${socket.cavity.id} from the mating face. ${read}. This is an open-circuit reading: ${lost}.`;
}

/** What fits the contacts of a half. */
function counterpart(contacts: string | undefined): string {
  if (contacts === "sockets") return "pin";
  return contacts === "pins" ? "socket" : "terminal";
}
