import { err, ok, type Result } from "../../base/index.ts";
import { ITEM_NAMES, jointId, nodeItem, type Item, type Resolved } from "../../connectivity/index.ts";
import type { UnresolvedAnswer } from "../answer.ts";
import type { MachineContext } from "../machine-context.ts";
import { nameInQuestion, type WireEnd } from "./name-in-question.ts";
import { unresolved } from "./unresolved.ts";

type Node = MachineContext["harness"]["nodes"][number];

/** The point a lead is put on. */
export interface Lead {
  /** As typed; undefined where it was left to the answer. */
  readonly asked: string | undefined;
  /** Canonical address of the point. */
  readonly at: string;
  /** The node the lead comes to; for the end of a wire the stud or splice it ends at. */
  readonly node: number;
  /** What people call it: the mated pair of a contact, the stud, the splice. */
  readonly item: Item;
  /** The other half of a mated contact; `isOpen` where it was left open which of the two is meant. */
  readonly other?: {
    readonly at: string;
    readonly connector: string;
    readonly isDevice: boolean;
    readonly isOpen: boolean;
  };
}

/** Most points that a name of many points lists. */
const MOST_CHOICES = 40;

/**
 * Finds the one point a text names for a lead.
 *
 * @param context The machine in its build and state.
 * @param text As typed.
 * @returns The point; of a mated pair the half whose contact sits on wires, with the other one noted. Or the answer that asks for one point of a thing
 *   that has several, or says why there is none.
 */
export function findLead(context: MachineContext, text: string): Result<Lead, UnresolvedAnswer> {
  const named = nameInQuestion(context, text);
  if (!named.ok) return named;
  if (named.value.type === "wire-end") return ok(leadAtEnd(text, named.value));
  const { type, id, groups } = named.value;
  const isPoint = ["contact", "splice", "stud", "inner", "code"].includes(type);
  const [group, second] = groups;
  if (isPoint && group && !second) return ok(leadAtGroup(context, text, group));
  const choice = `${id} (${ITEM_NAMES[type]}) has more than one point. Name one of its points for the lead.`;
  const items = pointsOf(context, named.value);
  return err(unresolved(context, { kind: "ambiguous", asked: text, text: choice, items }));
}

function leadAtEnd(asked: string, end: WireEnd): Lead {
  return { asked, at: end.id, node: end.at.groups[0]?.[0] ?? -1, item: { type: end.at.type, id: end.at.id } };
}

function leadAtGroup({ harness }: MachineContext, asked: string, group: readonly number[]): Lead {
  const rank = (number: number): number => Number(isDevice(harness.nodes[number]));
  const [number = -1] = group.toSorted((a, b) => rank(a) - rank(b));
  const node = harness.nodes[number];
  const mate = mateOf(harness, number);
  const isOpen = group.length > 1;
  const lead = { ...leadAtNode(node?.key ?? "", number, pointItem(node, isOpen)), asked };
  if (mate?.kind !== "contact") return lead;
  return { ...lead, other: { at: mate.key, connector: mate.connector.id, isDevice: isDevice(mate), isOpen } };
}

function isDevice(node: Node | undefined): boolean {
  return node?.kind === "contact" && node.side.id === "device";
}

/** The contact that a contact is mated with. */
function mateOf({ nodes, edgeNumbers, index }: MachineContext["harness"], number: number): Node | undefined {
  const node = nodes[number];
  const mating = node?.kind === "contact" ? edgeNumbers.get(jointId(node)) : undefined;
  if (mating === undefined) return undefined;
  const from = index.from[mating] ?? -1;
  return nodes[from === number ? (index.to[mating] ?? -1) : from];
}

/** A lead on a node that nobody had to name. */
export function leadAtNode(at: string, node: number, item: Item): Lead {
  return { asked: undefined, at, node, item };
}

/** What people call a node: the mated pair of a contact, or the half alone. */
export function pointItem(node: Node | undefined, isPair: boolean): Item {
  if (!node) return { type: "inner", id: "" };
  return node.kind === "contact" && isPair ? { type: "contact", id: jointId(node) } : nodeItem(node);
}

function pointsOf({ harness }: MachineContext, { groups }: Resolved): readonly Item[] {
  const items = new Map<string, Item>();
  for (const number of groups.flat()) {
    const node = harness.nodes[number];
    if (!node || items.size >= MOST_CHOICES) continue;
    const isPair = node.kind === "contact" && harness.edgeNumbers.has(jointId(node));
    const item = pointItem(node, isPair);
    items.set(item.id, item);
  }
  return [...items.values()];
}
