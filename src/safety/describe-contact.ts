import { formatNumber, unreachable } from "../base/index.ts";
import { halfKey, type Harness, type State } from "../model/index.ts";

import type { Contact } from "./contact.ts";

/** The id of a contact inside one answer: method, place and, where it matters, adapter or fuse: `in-line@B3.X.harness:1~TL-3-0.64`. */
export function contactId(harness: Harness, contact: Contact): string {
  const at = contact.node === undefined ? contact.item.id : (harness.nodes[contact.node]?.key ?? "");
  const through = contact.adapter?.id ?? (contact.place === "fuse" ? contact.item.id : undefined);
  return `${contact.method}@${at}${through === undefined ? "" : `~${through}`}`;
}

/** The connector that has to be parted for a contact, and the half that is taken away by it; undefined if it stays mated. */
export function unplugged(
  harness: Harness,
  { method, socket }: Contact,
): { connector: string; away: string } | undefined {
  if (method !== "front-probe" || !socket) return undefined;
  const away = harness.fitted.halves.get(socket.connector.id)?.find((half) => half.id !== socket.half.id);
  return away && { connector: socket.connector.id, away: halfKey(socket.connector, away) };
}

/**
 * What is done, as a sentence or two.
 *
 * @param harness The harness.
 * @param contact The contact.
 * @param state The state the reading is for.
 */
export function describeContact(harness: Harness, contact: Contact, state: State): string {
  const { method, item, adapter, socket } = contact;
  const at = contact.node === undefined ? item.id : (harness.nodes[contact.node]?.key ?? item.id);
  const inState = `bring the machine to "${state.label}" and read`;
  switch (method) {
    case "clamp":
      return `Put the current clamp round wire ${item.id} alone${near(harness, contact)}.`;
    case "tip":
      return `Put the meter tip or a clip on the bare metal of ${at}.`;
    case "clip":
      return `Clip a lead on ${at} with the machine stopped, lead it out, then ${inState} from a safe place.`;
    case "fuse-window":
      return `Put the meter tip on the test window of fuse ${item.id}, on the side of ${at}. The fuse stays in.`;
    case "mating-adapter":
      return `Plug ${adapter?.label ?? "the mating adapter"} onto ${socket?.connector.id ?? at} and read at ${socket?.cavity.id ?? at}.`;
    case "in-line":
      return `Key off, fit ${adapter?.label ?? "the adapter"} between the halves of ${socket?.connector.id ?? at}, ${inState} at ${at}. The circuit stays whole.`;
    case "relay-extension":
      return `Key off, pull the relay, fit ${adapter?.label ?? "the extension"} with the relay on top, ${inState} at ${at}. The circuit stays whole.`;
    case "front-probe":
      return frontProbe(harness, contact, `${inState} at ${at}`);
    case "screw":
      return `Put the meter tip on the head of the screw or nut at ${at}, not on the blade or ring.`;
    case "back-probe":
      return `A probe pushed into ${at} from the wire side.`;
    case "pierce":
      return `A needle through the covering of ${item.id}.`;
    case "tip-in-socket":
      return `A meter tip pushed into ${at}.`;
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
  const lead = `a test lead with a ${size === undefined ? "" : `${formatNumber(size, 2)} mm `}${counterpart(socket.half.contacts)} of the same series`;
  const away = unplugged(harness, contact);
  if (!away) return `Fit ${lead} from the mating side into cavity ${socket.cavity.id}, ${read}.`;
  const isDevice = away.away.endsWith(".device") && socket.connector.component !== undefined;
  const lost = isDevice
    ? `${socket.connector.component ?? ""} is disconnected`
    : `everything behind ${away.away} is disconnected`;
  return `Key off, unplug ${away.connector}, fit ${lead} from the mating side into cavity ${socket.cavity.id}, ${read}. Meanwhile ${lost}, so this is an open-circuit reading.`;
}

/** What fits the contacts of a half. */
function counterpart(contacts: string | undefined): string {
  if (contacts === "sockets") return "pin";
  return contacts === "pins" ? "socket" : "terminal";
}
