import type { Harness } from "../model/index.ts";
import { circuitsOf } from "./find-circuit.ts";
import { findNet } from "./find-net.ts";
import type { Item } from "./item.ts";
import type { Resolved } from "./resolve.ts";

/** What the data leaves open about the nets of some things: why an answer about them may not be the whole of it. */
export interface Unknowns {
  /** Of the things asked about: those on whose nets no supply or consumer is known. */
  readonly withoutCircuit: readonly Item[];
  /** Wires of the nets of which the data names one end only, by id. */
  readonly openWires: readonly string[];
  /** Components that the nets end at and whose inside is not in the data, by id. */
  readonly blankComponents: readonly string[];
}

/**
 * Finds what the data leaves open about the nets of some things.
 *
 * @param harness The harness.
 * @param of The things asked about.
 */
export function findUnknowns(harness: Harness, of: readonly Resolved[]): Unknowns {
  const openWires = new Set<string>();
  const blank = new Set<string>();
  for (const thing of of) {
    for (const number of findNet(harness, thing).nodes) {
      const node = harness.nodes[number];
      if (node?.kind === "open-end") openWires.add(node.wire.id);
      const owner = node?.kind === "contact" ? node.connector.component : undefined;
      if (owner !== undefined && harness.fitted.components.get(owner)?.elements.length === 0) blank.add(owner);
    }
  }
  return {
    withoutCircuit: of
      .filter((thing) => circuitsOf(harness, thing).length === 0)
      .map(({ type, id }): Item => ({ type, id })),
    openWires: [...openWires],
    blankComponents: [...blank],
  };
}
