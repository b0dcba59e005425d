import type { Connector, Cavity, Harness, HarnessNode, Wire } from "../../model/index.ts";
import { SPLICE_LEG, typicalContact, typicalRing } from "../tables/joint-resistance.ts";
import { wireResistance } from "../tables/wire-resistance.ts";
import type { PartDraft } from "./part-draft.ts";
import type { Surroundings } from "./surroundings.ts";

/**
 * Adds a wire. Where it ends at a splice or a stud, the crimp or ring there is a part of its own, between the splice or stud and a
 * node named like `W78@SP13`.
 *
 * @param draft Where to add it.
 * @param around The situation.
 * @param at The wire and the nodes it ends at.
 */
export function addWire(
  draft: PartDraft,
  around: Surroundings,
  at: { readonly wire: Wire; readonly from: number; readonly to: number },
): void {
  const { wire } = at;
  const { wireStandard } = around.harness.document.system;
  const { crossSectionMm2, lengthMm } = wire;
  const answer = wireResistance({
    standard: wireStandard,
    crossSectionMm2,
    lengthMm,
    temperatureC: around.temperatureC,
  });
  if (answer.kind === "unknown")
    draft.assume("missing", wire.id, `${wire.id}: no ${answer.missing.join(" and no ")} given, taken as 0 ohm`);
  else if (!answer.isListed) draft.assume("standard", wire.id, `${wire.id}: ${answer.source}`);
  const from = endOf(draft, around.harness, wire, at.from);
  const to = endOf(draft, around.harness, wire, at.to);
  const ohm = answer.kind === "known" ? answer.ohm : 0;
  draft.addConductor(from, to, { key: wire.id, group: "wire", ohm, present: true });
}

function endOf(draft: PartDraft, harness: Harness, wire: Wire, number: number): number {
  const node = harness.nodes[number];
  if (node?.kind !== "splice" && node?.kind !== "stud") return number;
  const name = `${wire.id}@${node.key}`;
  const end = draft.node(name);
  draft.addConductor(number, end, { key: name, group: "joint", ohm: endOhm(draft, node, wire), present: true });
  return end;
}

function endOhm(draft: PartDraft, node: Extract<HarnessNode, { kind: "splice" | "stud" }>, wire: Wire): number {
  const given = node.kind === "splice" ? node.splice.resistanceOhm : node.stud.ringOhm;
  if (given !== undefined) return given;
  const typical = node.kind === "splice" ? SPLICE_LEG : typicalRing(wire.crossSectionMm2);
  draft.assumeJoint(typical);
  return typical.ohm;
}

/** Adds a mated contact; it is absent while its connector is unplugged. */
export function addMating(
  draft: PartDraft,
  around: Surroundings,
  at: {
    readonly key: string;
    readonly connector: Connector;
    readonly cavity: Cavity;
    readonly from: number;
    readonly to: number;
  },
): void {
  const { connector, cavity } = at;
  let ohm = cavity.resistanceOhm ?? connector.contactOhm;
  if (ohm === undefined) {
    const typical = typicalContact(cavity.terminalMm);
    draft.assumeJoint(typical);
    ohm = typical.ohm;
  }
  // A lead in line has a contact on either side.
  if (around.inLine.has(connector.id)) ohm *= 2;
  const present = !around.unplugged.has(connector.id);
  draft.addConductor(at.from, at.to, { key: at.key, group: "joint", ohm, present });
}
