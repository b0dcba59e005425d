import { resolve } from "../../connectivity/index.ts";
import type { Machine } from "../open-machine.ts";
import type { Conditions, ExpectMeter, OpenSetting } from "../question.ts";
import { resolveContext } from "../machine-context.ts";
import type { LeadFacts } from "./expected-answer.ts";
import { contactMeter } from "./expected-parts.ts";
import { findLead } from "./find-lead.ts";
import { judgeLead } from "./judge-lead.ts";
import { readConditions } from "./read-conditions.ts";

/** Whether a lead may be put on a point as the machine stands, and how. */
export type LeadReach = Pick<LeadFacts, "at" | "access" | "text" | "ways" | "refused">;

/**
 * Says whether one lead may be put on a point, before a reading is asked for.
 *
 * @param machine The machine.
 * @param setting Build and state.
 * @param lead The point as typed, what is to be measured, and what differs from the document: an unplugged connector opens some
 *   points and parts others. Conditions that cannot be read count as none.
 * @returns The judgement; undefined where the text names no single point, or a clamp is meant and it names no wire.
 */
export function leadReach(
  machine: Machine,
  setting: OpenSetting,
  lead: { readonly point: string; readonly meter: ExpectMeter; readonly conditions?: Conditions },
): LeadReach | undefined {
  const context = resolveContext(machine, setting);
  if (!context.ok) return undefined;
  const { harness } = context.value;
  const understood = readConditions(context.value, lead.conditions ?? {});
  const opened: ReadonlySet<string> = understood.ok ? understood.value.opened : new Set();
  if (lead.meter === "dc-current") {
    const named = resolve(harness, lead.point);
    const [edge] = named.kind === "one" && named.item.type === "wire" ? named.item.edges : [];
    const wire = edge === undefined ? undefined : harness.edges[edge]?.key;
    if (edge === undefined || wire === undefined) return undefined;
    const item = { type: "wire", id: wire } as const;
    const nodes = [harness.index.from[edge] ?? -1, harness.index.to[edge] ?? -1];
    const clamp = { lead: "clamp", asked: lead.point, at: wire, item, nodes, edge, twin: undefined } as const;
    return judgeLead(context.value, clamp, { meter: "clamp", opened });
  }
  const found = findLead(context.value, lead.point);
  if (!found.ok) return undefined;
  const { asked, at, node, item, other } = found.value;
  const meter = contactMeter(context.value, lead.meter, item);
  const twin = other && !opened.has(other.connector) ? other.at : undefined;
  return judgeLead(context.value, { lead: "red", asked, at, item, nodes: [node], twin }, { meter, opened });
}
