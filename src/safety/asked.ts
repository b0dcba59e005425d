import { jointId, type Resolved } from "../trace/index.ts";
import type { SafetyIndex } from "./safety-index.ts";

/** What the question is about: a resolved thing, or nodes by number, with the wires that count as asked about too. */
export type ProbeTarget =
  Pick<Resolved, "groups" | "edges"> | { readonly nodes: readonly number[]; readonly edges?: readonly number[] };

/** What was asked about, by number; `joints` are the mated pairs the nodes belong to. */
export interface Asked {
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
