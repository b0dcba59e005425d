import { naturalOrder } from "../base/index.ts";
import type { Harness, State } from "../model/index.ts";
import { documentCautions, generalCautions } from "./document-cautions.ts";
import type { ProbeFindings, ProbePoint, Relation } from "./findings.ts";
import { gatherContacts } from "./gather-contacts.ts";
import { judgeContact } from "./judge-contact.ts";
import { keepBest } from "./keep-best.ts";
import { makePoint } from "./make-point.ts";
import { makeRefusals } from "./make-refusals.ts";
import { walkNet } from "./net-walk.ts";
import { askedOf, type ProbeTarget } from "./asked.ts";
import { distanceOf, type Judged, type ProbeContext } from "./probe-context.ts";
import type { Rule } from "./rule.ts";
import { RULES } from "./rules.ts";
import { safetyIndex } from "./safety-index.ts";

/** Options of {@link findProbePoints}. */
export interface ProbeOptions {
  /**
   * Which refusals are wanted: of everything on the net (the default), of the thing asked about only, or none, which is quickest.
   */
  readonly refusals?: "net" | "asked" | "none";
  /** Another table than {@link RULES}; for tests of the table. */
  readonly rules?: readonly Rule[];
}

/**
 * Where a meter may be put to read a point, a wire, a component or a path, in one state of the machine.
 *
 * Every place on the nets of what was asked is judged, as conductors alone join them; each point says whether it is the thing itself.
 * Points come best first: the gentlest class, then the thing itself, then the quickest. Which meters a point allows is said with it; a
 * clamp gives amperes only and is no answer to a question in volts.
 *
 * @param harness The harness.
 * @param of What is asked about: a resolved thing, or nodes by number.
 * @param state The state of the machine in which the reading is taken.
 * @param options Which refusals are wanted.
 * @returns Points, refusals with reason and nearest allowed point, and cautions. There are no points where none is allowed, as on airbag
 *   and high-voltage lines; the refusals then say why.
 * Cost: linear in the size of the nets asked about.
 *
 * @example
 * ```ts
 * import { fitBuild, HarnessDocument } from "ohmward/model";
 * import { resolve } from "ohmward/trace";
 * import { findProbePoints } from "ohmward/safety";
 * const document = HarnessDocument.parse({
 *   format: "ohmward-harness", version: 2, about: { title: "Lamp", machine: "Lamp" },
 *   system: { nominalVolt: 12, wireStandard: "iec-60228-class-5", temperatureC: 20 },
 *   options: [], builds: [{ id: "base", label: "Base", options: [] }],
 *   states: [{ id: "OFF", label: "Key off", conditions: ["key-off"] }],
 *   zones: [], places: [], segments: [], components: [], connectors: [], splices: [],
 *   studs: ["P1", "P2"].map((id) => ({ id, label: "Post", role: "terminal", access: { minutes: 1, states: "any" } })),
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

function wanted(context: ProbeContext, judged: readonly Judged[], which: "net" | "asked" | "none"): readonly Judged[] {
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
