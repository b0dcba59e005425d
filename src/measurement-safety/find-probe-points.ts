import { naturalOrder } from "../base/index.ts";
import type { Harness, State } from "../harness-model/index.ts";
import { documentCautions, generalCautions } from "./cautions.ts";
import type { Contact, ProbeFindings, ProbePoint, NotPermittedPoint, Relation } from "./findings.ts";
import { judgeContact } from "./judge-contact.ts";
import { gatherContacts } from "./make-contacts.ts";
import { addressOf, contactId, makePoint, refusedBy } from "./make-point.ts";
import { walkNet, wayTo, type NetWalk } from "./net-walk.ts";
import {
  askedOf,
  distanceOf,
  nodesOf,
  type RatedContact,
  type ProbeContext,
  type ProbeTarget,
} from "./probe-context.ts";
import type { Rule } from "./rule.ts";
import { RULES } from "./rules.ts";
import { safetyIndex } from "./safety-index.ts";

/** Options of {@link findProbePoints}. */
export interface ProbeOptions {
  /** Which refusals are wanted: of everything on the net (the default), of the thing asked about only, or none, which is quickest. */
  readonly refusals?: "net" | "asked" | "none";
  /** Another table than {@link RULES}; for tests of the table. */
  readonly rules?: readonly Rule[];
}

/**
 * Test points to read a point, a wire, a component or a path, in one state of the machine.
 *
 * Every place on the nets of what was asked is judged, as conductors alone join them; each point says whether it is the thing itself.
 * Points come best first: the gentlest class, then the thing itself, then the quickest. Which meters a point allows is said with it; a
 * clamp gives amperes only and is no answer to a question in volts.
 *
 * @param of What is asked about: a resolved thing, or nodes by number.
 * @param state The state of the machine in which the reading is taken.
 * @param options Which refusals are wanted.
 * @returns Points, refusals with reason and nearest allowed point, and cautions. There are no points where none is allowed, as on airbag
 *   and high-voltage lines; the refusals then say why. Cost: linear in the size of the nets asked about.
 * @example
 * ```ts
 * import { fitBuild, HarnessDocument } from "ohmward/harness-model";
 * import { resolve } from "ohmward/connectivity";
 * import { findProbePoints } from "ohmward/measurement-safety";
 * const document = HarnessDocument.parse({
 *   format: "ohmward-harness", version: 3, about: { title: "Lamp", machine: "Lamp" },
 *   system: { nominalVolt: 12, wireStandard: "iec-60228-class-5", temperatureC: 20 },
 *   options: [], builds: [{ id: "base", label: "Base", options: [] }],
 *   states: [{ id: "OFF", label: "Key off", conditions: ["key-off"] }],
 *   zones: [], topologyNodes: [], segments: [], components: [], connectors: [], splices: [],
 *   terminalStuds: ["P1", "P2"].map((id) => ({ id, label: "Post", role: "terminal", access: { minutes: 1, states: "any" } })),
 *   nets: [], wires: [{ id: "W1", ends: ["P1", "P2"] }], adapters: [], codes: [], cautions: [],
 * });
 * const harness = fitBuild(document, "base");
 * const post = harness && resolve(harness, "P1");
 * const off = document.states[0];
 * const found = harness && off && post?.kind === "one" ? findProbePoints(harness, post.item, off) : undefined;
 * expect(found?.points.map((point) => [point.id, point.relation])).toEqual([
 *   ["clamp@W1", "same-net"], ["tip@P1", "itself"], ["tip@P2", "same-net"],
 * ]);
 * expect(found?.refused.map((refusal) => [refusal.id, refusal.rule, refusal.instead])).toEqual([
 *   ["pierce@W1", "no-piercing", "tip@P1"],
 * ]);
 * ```
 *
 * Source: the classes and rules of docs/methods/safe-probing.md, each rule with its own source.
 */
export function findProbePoints(
  harness: Harness,
  of: ProbeTarget,
  state: State,
  options: ProbeOptions = {},
): ProbeFindings {
  const index = safetyIndex(harness);
  const asked = askedOf(index, of);
  const walk = walkNet(harness, asked.nodes);
  const context: ProbeContext = { index, state, asked, walk };
  const judging = { state, rules: options.rules ?? RULES };
  const contacts = gatherContacts(index, { nodes: walk.nodes, edges: walk.edges });
  const judged = keepBest(contacts.map((contact) => ({ contact, verdict: judgeContact(index, contact, judging) })));
  const allowed = judged.flatMap(({ contact, verdict }) =>
    verdict.kind === "permitted" ? [{ contact, point: makePoint(context, contact, verdict) }] : [],
  );
  allowed.sort((a, b) => comparePoints(a.point, b.point));
  const nets = [...new Set(walk.nodes.map(index.netOf))].flatMap((net) => net.labels);
  return {
    kind: "probe-points",
    state: state.id,
    points: allowed.map(({ point }) => point),
    refused: makeRefusals(context, wanted(context, judged, options.refusals ?? "net"), allowed),
    cautions: [...new Set([...generalCautions(harness, state), ...documentCautions(harness, { nets })])],
  };
}

function wanted(
  context: ProbeContext,
  judged: readonly RatedContact[],
  which: "net" | "asked" | "none",
): readonly RatedContact[] {
  if (which === "none") return [];
  return which === "net" ? judged : judged.filter(({ contact }) => distanceOf(context, contact) === 0);
}

const RELATIONS: readonly Relation[] = ["itself", "same-net", "parted"];

function comparePoints(a: ProbePoint, b: ProbePoint): number {
  return (
    Number(a.class.slice(1)) - Number(b.class.slice(1)) ||
    RELATIONS.indexOf(a.relation) - RELATIONS.indexOf(b.relation) ||
    a.minutes - b.minutes ||
    naturalOrder(a.id, b.id)
  );
}

/**
 * Leaves one contact of each wire and method: the stretch of harness or, failing that, the end where it is allowed with the fewest dangers
 * and minutes, or the first refusal. At a stud the clip gives way where a tip is allowed.
 */
function keepBest(judged: readonly RatedContact[]): readonly RatedContact[] {
  const kept = new Map<string, RatedContact>();
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

function isBetter(one: RatedContact, other: RatedContact): boolean {
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

/** An allowed contact with its answer. */
interface Allowed {
  readonly contact: Contact;
  readonly point: ProbePoint;
}

/**
 * The refusals of an answer, nearest to the thing asked about first, each with the nearest allowed point: fewest things between, of equals
 * the better ranked, and one that takes the same kind of reading if there is any.
 *
 * @param allowed The allowed points, best first.
 */
function makeRefusals(
  context: ProbeContext,
  judged: readonly RatedContact[],
  allowed: readonly Allowed[],
): readonly NotPermittedPoint[] {
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
    const refusal: NotPermittedPoint = {
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
