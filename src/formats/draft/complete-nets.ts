import { importProblem } from "../import-problem.ts";
import type { ConnectorInput, NetInput, WireInput } from "./draft-types.ts";
import type { DraftParts } from "./draft-parts.ts";

/**
 * Words by which a file gives away that a line belongs to a circuit on which no check may be suggested. Plain words of the trade in
 * several languages. Common practice, no source; it errs on the side of guarding too much.
 */
const GUARDED: readonly (readonly [NetInput["kind"], RegExp])[] = [
  [
    "airbag",
    /\bair ?bags?\b|\bsquibs?\b|\bpre-?tensioners?\b|\bpretensor(?:es)?\b|\bpr[eé]tensionneurs?\b|\bpretensionator[ei]\b|\bgurtstraffer\b|\bgordelspanners?\b|\bkrockkudd(?:e|ar)\b|\bbältessträckare\b|\bSRS\b/iu,
  ],
  [
    "high-voltage",
    /\bhigh[- ]voltage\b|\bhoch(?:volt|spannung)|\bhaute tension\b|\balta tensi[oó]ne?\b|\bhoogspanning|\bhögspänning|\btraction battery\b|\btraktionsbatterie\b/iu,
  ],
];

/**
 * Guards nets that may belong to airbag or high-voltage circuits, and lists all labels once any net is listed. A wire without a
 * label that ends at a guarded part gets one, so that nothing of the circuit stays open to checks.
 */
export function completeNets(parts: DraftParts, connectors: readonly ConnectorInput[]): void {
  const texts = textsOfEnds(parts, connectors);
  const kinds = new Map(parts.nets.map((net) => [net.id, net]));
  for (const wire of parts.wires) {
    const net = wire.net === undefined ? undefined : kinds.get(wire.net);
    // What the file itself says of a net stands.
    if (net) continue;
    const guarded = guardedBy([wire.net ?? "", ...wire.ends.flatMap((end) => texts.get(ownerOfEnd(end)) ?? [])]);
    if (!guarded) continue;
    const label = wire.net ?? guarded.kind;
    wire.net = label;
    if (kinds.has(label)) continue;
    const made: NetInput = { id: label, kind: guarded.kind };
    kinds.set(label, made);
    parts.nets.push(made);
    parts.problems.push(
      importProblem("net-guarded", parts.found.get(wire) ?? {}, { net: label, kind: guarded.kind, word: guarded.word }),
    );
  }
  if (parts.nets.length > 0) listOthers(parts, kinds);
}

function listOthers(parts: DraftParts, kinds: Map<string, NetInput>): void {
  let others = 0;
  for (const wire of parts.wires) {
    if (wire.net === undefined || kinds.has(wire.net)) continue;
    const made: NetInput = { id: wire.net, kind: "signal" };
    kinds.set(wire.net, made);
    parts.nets.push(made);
    others += 1;
  }
  if (others > 0) parts.problems.push(importProblem("net-kind-assumed", {}, { nets: others }));
}

/** Id and label of connectors, halves, splices and studs, with those of the component they belong to, by how a wire end begins. */
function textsOfEnds(parts: DraftParts, connectors: readonly ConnectorInput[]): ReadonlyMap<string, readonly string[]> {
  const components = new Map(parts.components.map((component) => [component.id, [component.id, component.label]]));
  const texts = new Map<string, readonly string[]>();
  for (const connector of connectors) {
    const own = [connector.id, connector.label, ...(components.get(connector.component ?? "") ?? [])];
    texts.set(connector.id, own);
    for (const half of connector.halves) {
      for (const name of [`${connector.id}.${half.id}`, half.name]) if (name !== undefined) texts.set(name, own);
    }
  }
  for (const stud of parts.studs) texts.set(stud.id, [stud.label, ...(components.get(stud.component ?? "") ?? [])]);
  for (const splice of parts.splices) texts.set(splice.id, [splice.label ?? ""]);
  return texts;
}

function ownerOfEnd(end: WireInput["ends"][number]): string {
  const colon = end.lastIndexOf(":");
  return colon < 0 ? end : end.slice(0, colon);
}

function guardedBy(texts: readonly string[]): { kind: NetInput["kind"]; word: string } | undefined {
  for (const text of texts) {
    for (const [kind, pattern] of GUARDED) {
      const word = pattern.exec(text)?.[0];
      if (word !== undefined) return { kind, word };
    }
  }
  return undefined;
}
