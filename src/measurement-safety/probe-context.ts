import type { State } from "../harness-model/index.ts";
import { jointId, type Resolved } from "../connectivity/index.ts";
import type { Verdict } from "./evaluate-rules.ts";
import type { Contact } from "./findings.ts";
import type { NetWalk } from "./net-walk.ts";
import type { SafetyIndex } from "./safety-index.ts";

/** A contact with what the rules say of it. */
export interface RatedContact {
  readonly contact: Contact;
  readonly verdict: Verdict;
}

/** What one question about probe points works with. */
export interface ProbeContext {
  readonly index: SafetyIndex;
  readonly state: State;
  readonly asked: Asked;
  readonly walk: NetWalk;
}

/** Edges between a contact and the nearest thing asked about; 0 for the thing itself. */
export function distanceOf({ index, asked, walk }: ProbeContext, contact: Contact): number {
  if (contact.node === undefined && contact.edge !== undefined && asked.edges.has(contact.edge)) return 0;
  return Math.min(...nodesOf(index, contact).map((node) => walk.steps.get(node) ?? Infinity));
}

/** The electrical nodes of a contact: its own, or both ends of a wire. */
export function nodesOf({ harness }: SafetyIndex, { node, edge }: Contact): readonly number[] {
  return node === undefined ? [harness.index.from[edge ?? -1] ?? -1, harness.index.to[edge ?? -1] ?? -1] : [node];
}

/** What the question is about: a resolved thing, or nodes by number, with the wires that count as asked about too. */
export type ProbeTarget =
  Pick<Resolved, "groups" | "edges"> | { readonly nodes: readonly number[]; readonly edges?: readonly number[] };

/** What was asked about, by number; `joints` are the mated pairs the nodes belong to. */
interface Asked {
  readonly nodes: ReadonlySet<number>;
  readonly edges: ReadonlySet<number>;
  readonly joints: ReadonlySet<string>;
}

/** Reads a target. */
export function askedOf({ harness }: SafetyIndex, of: ProbeTarget): Asked {
  const nodes = new Set("nodes" in of ? of.nodes : of.groups.flat());
  const joints = new Set<string>();
  for (const number of nodes) {
    const node = harness.nodes[number];
    if (node?.kind === "contact") joints.add(jointId(node));
  }
  return { nodes, edges: new Set(of.edges), joints };
}
