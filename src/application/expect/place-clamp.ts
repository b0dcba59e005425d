import { err, ok, type Result } from "../../base/index.ts";
import type { Resolved } from "../../connectivity/index.ts";
import type { UnresolvedAnswer } from "../answer.ts";
import type { ExpectQuestion } from "../question.ts";
import { resolveText } from "../resolve-text.ts";
import type { MachineContext } from "../machine-context.ts";
import type { PlacedLeads } from "./placed-leads.ts";
import { unresolved } from "./unresolved.ts";
import type { WrongQuestionAnswer } from "./wrong-question-answer.ts";
import { wrongQuestion } from "./wrong-question.ts";

/**
 * Puts a current clamp round the wire a question names; a contact, stud or splice stands for the one wire that ends there.
 *
 * @param context The machine in its build and state.
 * @param question The wire as typed, in the place of the red lead.
 * @returns The clamp, with the direction that counts as positive; or the answer that asks which wire is meant.
 */
export function placeClamp(
  context: MachineContext,
  question: ExpectQuestion,
): Result<PlacedLeads, UnresolvedAnswer | WrongQuestionAnswer> {
  if (question.black !== undefined) {
    const text = "A current clamp goes round one wire and has no black lead. Name the wire only.";
    return err(wrongQuestion(context, [{ code: "clamp-has-no-black", of: question.black, text }]));
  }
  const asked = question.red;
  const named = resolveText(context, asked);
  if (!named.ok) return named;
  const wires = named.value.type === "wire" ? named.value.edges : wiresAt(context, named.value);
  const [edge, second] = wires;
  if (edge === undefined || second !== undefined) {
    const ends = edge === undefined ? "no wire ends there" : "more than one wire ends there";
    const text = `A current clamp goes round one wire. "${asked.trim()}" is not one wire: ${ends}. Name a wire.`;
    const items = wires.map((each) => ({ type: "wire", id: keyOf(context, each) }) as const);
    return err(unresolved(context, { kind: "ambiguous", asked, text, items }));
  }
  const { index, nodes } = context.harness;
  const id = keyOf(context, edge);
  const ends = [index.from[edge] ?? -1, index.to[edge] ?? -1];
  const [from = "", to = ""] = ends.map((end) => nodes[end]?.key ?? "");
  const note = `The current clamp is round ${id} only. Current from ${from} to ${to} is positive.`;
  return ok({
    probe: { kind: "dc-current", wire: id },
    leads: [{ lead: "clamp", asked, at: id, item: { type: "wire", id }, nodes: ends, edge, twin: undefined }],
    notes: [note],
  });
}

function keyOf({ harness }: MachineContext, edge: number): string {
  return harness.edges[edge]?.key ?? "";
}

/** The wires that end at the points of a thing. */
function wiresAt({ harness }: MachineContext, { groups }: Resolved): readonly number[] {
  const { offsets, arcEdges } = harness.index;
  const wires = new Set<number>();
  for (const node of groups.flat()) {
    for (let arc = offsets[node] ?? 0; arc < (offsets[node + 1] ?? 0); arc++) {
      const edge = arcEdges[arc] ?? -1;
      if (harness.edges[edge]?.kind === "wire") wires.add(edge);
    }
  }
  return [...wires];
}
