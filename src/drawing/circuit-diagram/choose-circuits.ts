import { naturalOrder } from "../../base/index.ts";
import { circuitsOf, findCircuits, type Circuit, type Item, type Resolved } from "../../connectivity/index.ts";
import type { Harness } from "../../harness-model/index.ts";

/** How many coils of relays are drawn beside the circuit: none, those of its own contacts, or also the coils that these depend on. */
export type CoilDepth = "none" | "own" | "all";

/** The circuits of a diagram. */
export interface ChosenCircuits {
  /** The circuits that were asked for. */
  readonly strong: readonly Circuit[];
  /** The circuits of the coils that move their contacts. */
  readonly coils: readonly Circuit[];
}

/** More circuits than this are not drawn together: they are listed to choose from. */
export const MOST_CIRCUITS = 6;

/**
 * The circuits that a diagram of an item shows: for a part those that it serves and those through its contacts, else all that the item
 * belongs to. A splice and a stud have none: their net is drawn.
 *
 * @param of The item.
 * @param coils How far coils are followed.
 */
export function chooseCircuits(harness: Harness, of: Resolved, coils: CoilDepth): ChosenCircuits {
  const strong = of.type === "splice" || of.type === "stud" ? [] : sorted(askedCircuits(harness, of));
  return { strong, coils: strong.length > MOST_CIRCUITS ? [] : coilCircuits(harness, strong, coils) };
}

/** Circuits in the order of what they serve, so that the order of the lists of a document does not matter. */
function sorted(circuits: Iterable<Circuit>): readonly Circuit[] {
  return [...new Set(circuits)].sort((a, b) => naturalOrder(a.serves.id, b.serves.id));
}

function askedCircuits(harness: Harness, of: Resolved): readonly Circuit[] {
  if (of.type !== "component") return circuitsOf(harness, of);
  const { all, ofEdge } = findCircuits(harness);
  const serves = all.filter((circuit) => circuit.component === of.id);
  const contacts = of.edges.filter((number) => isContact(harness, number));
  const through = contacts.flatMap((number) => (ofEdge.get(number) ?? []).flatMap((at) => all[at] ?? []));
  return serves.length + through.length > 0 ? [...serves, ...through] : circuitsOf(harness, of);
}

function isContact(harness: Harness, number: number): boolean {
  const edge = harness.edges[number];
  return edge?.kind === "element" && edge.element.kind === "contact";
}

/**
 * The coil that moves a relay contact.
 *
 * @param edge Number of the edge of the contact.
 * @returns The element of the coil; undefined for every other edge.
 */
export function coilOf(harness: Harness, edge: number): Item | undefined {
  const found = harness.edges[edge];
  if (found?.kind !== "element" || found.element.kind !== "contact") return undefined;
  return { type: "element", id: `${found.component.id}.${found.element.of}` };
}

function coilCircuits(harness: Harness, strong: readonly Circuit[], depth: CoilDepth): readonly Circuit[] {
  const { all } = findCircuits(harness);
  const known = new Set(strong);
  const coils: Circuit[] = [];
  let from: readonly Circuit[] = depth === "none" ? [] : strong;
  while (from.length > 0) {
    const ids = new Set(from.flatMap(({ edges }) => [...edges].flatMap((edge) => coilOf(harness, edge)?.id ?? [])));
    const found = sorted(all.filter((circuit) => ids.has(circuit.serves.id) && !known.has(circuit)));
    found.forEach((circuit) => known.add(circuit));
    coils.push(...found);
    from = depth === "all" ? found : [];
  }
  return coils;
}
