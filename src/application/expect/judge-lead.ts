import {
  findProbePoints,
  METHODS,
  type Meter,
  type ProbeFindings,
  type ProbePoint,
} from "../../measurement-safety/index.ts";
import { describeItem, type Item } from "../../connectivity/index.ts";
import type { MachineContext } from "../machine-context.ts";
import type { LeadFacts } from "./expected-answer.ts";
import type { LeadSetup } from "./lead-setup.ts";
import { pointsBeyond } from "./points-beyond.ts";

/** One lead whose place is judged. */
export interface JudgedLead {
  readonly lead: LeadFacts["lead"];
  readonly asked: string | undefined;
  readonly at: string;
  readonly item: Item;
  /** The nodes it touches; both ends of the wire for a clamp. */
  readonly nodes: readonly number[];
  /** The wire of a clamp. */
  readonly edge?: number;
  /** The other half of the contact, if it reads the same. */
  readonly twin: string | undefined;
}

const MOST_WAYS = 3;

/**
 * Says whether a lead may be put where a figure is for, and how: by the same rules as every other answer about where to put a meter.
 *
 * @param context The machine in its build and state.
 * @param lead The lead.
 * @param leadSetup The meter, and the connectors that are unplugged.
 */
export function judgeLead(context: MachineContext, lead: JudgedLead, leadSetup: LeadSetup): LeadFacts {
  const { harness, state } = context;
  const facts = {
    lead: lead.lead,
    ...(lead.asked === undefined ? {} : { asked: lead.asked.trim() }),
    at: lead.at,
    of: describeItem(harness, lead.item),
  };
  if (!state) {
    const text = "The document names no states of the machine. It is not known whether a lead is permitted there.";
    return { ...facts, access: "unknown", text, ways: [], refused: [] };
  }
  const target = { nodes: lead.nodes, ...(lead.edge === undefined ? {} : { edges: [lead.edge] }) };
  const found = findProbePoints(harness, target, state, { refusals: "asked" });
  const fitting = found.points.filter((point) => point.meters.includes(leadSetup.meter));
  const own = fitting.filter((point) => isHere(lead, point));
  const permitted = own.filter((point) => isAsItStands(point, leadSetup));
  if (permitted.length > 0) {
    const ways = permitted
      .slice(0, MOST_WAYS)
      .map((point) => toWay(context, lead, { point, relation: "itself", ...leadSetup }));
    return { ...facts, access: "permitted", text: ways[0]?.how ?? "", ways, refused: [] };
  }
  const elsewhere = fitting.filter((point) => isBeside(point, leadSetup));
  const opened = own.filter((point) => point.unplug !== undefined);
  const near = [
    ...elsewhere
      .slice(0, MOST_WAYS - 1)
      .map((point) => toWay(context, lead, { point, relation: "conductor", ...leadSetup })),
    ...opened.slice(0, 1).map((point) => toWay(context, lead, { point, relation: "opened", ...leadSetup })),
  ];
  const ways = near.length > 0 ? near : waysBeyond(context, lead, leadSetup);
  const refused = refusalsOf(found, lead, leadSetup.meter);
  const access = elsewhere.length > 0 ? "elsewhere" : opened.length > 0 ? "opened" : "none";
  return { ...facts, access, text: noAccessText(lead, ways[0], access), ways, refused };
}

/** A clamp has nothing beyond: what flows in another wire is another current. */
function waysBeyond(context: MachineContext, lead: JudgedLead, leadSetup: LeadSetup): LeadFacts["ways"] {
  if (lead.edge !== undefined) return [];
  return pointsBeyond(context, lead.nodes, leadSetup).map(({ point, at, through }) => ({
    ...toWay(context, lead, { point, relation: "beyond", ...leadSetup }),
    at,
    between: through.map(({ id }) => id),
  }));
}

/** At the point itself, or at the other half of a contact that reads the same. */
function isHere(lead: JudgedLead, point: ProbePoint): boolean {
  if (point.relation !== "itself") return false;
  if (lead.edge !== undefined) return point.item.id === lead.at;
  return point.at === lead.item.id || point.at === lead.at || point.at === lead.twin;
}

/** Nothing is unplugged for it that is not unplugged anyway. */
function isAsItStands({ unplug }: ProbePoint, { opened }: LeadSetup): boolean {
  return unplug === undefined || opened.has(unplug);
}

/** On the same conductor, and joined to it as things stand. */
function isBeside(point: ProbePoint, leadSetup: LeadSetup): boolean {
  if (point.relation !== "same-net" || point.at === undefined || !isAsItStands(point, leadSetup)) return false;
  return !point.between.some(({ type, id }) => type === "contact" && isOfOpened(id, leadSetup));
}

function isOfOpened(contact: string, { opened }: LeadSetup): boolean {
  return opened.has(contact.slice(0, contact.lastIndexOf(":")));
}

/** What is done, where the rules of probing do not know what else is open, or that a ring is meant and not its stud. */
function howOf({ harness }: MachineContext, lead: JudgedLead, { point, opened, relation }: Reached): string {
  const { at = "", method, adapter, how } = point;
  const node = harness.nodes[harness.nodeNumbers.get(at) ?? -1];
  if (method === "in-line" && node?.kind === "contact" && opened.has(node.connector.id)) {
    const side = at.slice(0, at.lastIndexOf(":"));
    return `Turn the key off. Disconnect ${node.connector.id}. Connect ${adapter ?? "the breakout lead"} to ${side} only. Leave the other side disconnected. Measure at ${at}.`;
  }
  const wire = lead.at.includes("@") && relation !== "beyond" ? lead.at.slice(0, lead.at.indexOf("@")) : undefined;
  return wire === undefined ? how : `${how} Put it on the ring terminal of ${wire}, not on the stud or nut.`;
}

type LeadOption = LeadFacts["ways"][number];
type Reached = { readonly point: ProbePoint; readonly relation: LeadOption["relation"] } & LeadSetup;

function toWay(context: MachineContext, lead: JudgedLead, held: Reached): LeadOption {
  const { id, method, at, adapter, unplug, minutes, cautions } = held.point;
  return {
    id,
    relation: held.relation,
    class: held.point.class,
    method,
    how: howOf(context, lead, held),
    ...(at === undefined ? {} : { at }),
    between: held.point.between.map((item) => item.id),
    ...(adapter === undefined ? {} : { adapter }),
    ...(unplug === undefined ? {} : { unplug }),
    minutes,
    cautions,
  };
}

function refusalsOf({ refused, points }: ProbeFindings, lead: JudgedLead, meter: Meter): LeadFacts["refused"] {
  const byMeter = points
    .filter((point) => isHere(lead, point))
    .flatMap(({ method, notFor }) => notFor.flatMap((each) => (each.meter === meter ? [{ method, ...each }] : [])));
  const all = [...byMeter, ...refused].map(({ method, rule, reason, source }) => ({ method, rule, reason, source }));
  const once = all.filter((each, at) => all.findIndex((other) => other.method === each.method) === at);
  // What nobody would think of with this meter, and what is never offered anywhere, is left out where there is better to tell.
  const told = once.filter(({ method }) => {
    const { class: probeClass, meters } = METHODS[method];
    return probeClass !== undefined && meters.includes(meter);
  });
  return told.length > 0 ? told : once;
}

function noAccessText(
  { at }: JudgedLead,
  way: LeadOption | undefined,
  access: "elsewhere" | "opened" | "none",
): string {
  switch (access) {
    case "elsewhere":
      return `No contact is permitted at ${at} itself. ${way?.at ?? ""} on the same conductor is permitted. Ask for that point, and mind the items between.`;
    case "opened":
      return `Contact at ${at} is permitted only with ${way?.unplug ?? ""} disconnected. The reading is then another one. Ask with it disconnected.`;
    case "none":
      return `No contact is permitted at ${at} or on its conductor with this meter in this state.${beyondText(way)}`;
  }
}

function beyondText(way: LeadOption | undefined): string {
  if (way === undefined) return "";
  return ` The nearest permitted point is ${way.at ?? ""}, behind ${way.between.join(" and ")}. It is another point and gives another reading.`;
}
