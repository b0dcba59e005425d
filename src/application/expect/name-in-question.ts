import { err, ok, type Result } from "../../base/index.ts";
import { resolve, type Resolved } from "../../connectivity/index.ts";
import type { UnresolvedAnswer } from "../answer.ts";
import { resolveText } from "../resolve-text.ts";
import type { MachineContext } from "../machine-context.ts";
import { unresolved } from "./unresolved.ts";

/** The end of a wire at a stud or splice, such as the ring `W06@GND-C1`. */
export interface WireEnd {
  readonly type: "wire-end";
  readonly id: string;
  readonly wire: Resolved;
  /** The stud or splice. */
  readonly at: Resolved;
}

/**
 * Finds what a name in a question means: anything the trace can resolve, or the end of a wire at a stud or splice.
 *
 * @param context The machine in its build and state.
 * @param text The name as typed.
 * @returns The thing with its canonical id, or the answer that says why there is none.
 */
export function nameInQuestion(context: MachineContext, text: string): Result<Resolved | WireEnd, UnresolvedAnswer> {
  const at = text.indexOf("@");
  if (at < 0 || resolve(context.harness, text).kind === "one") return resolveText(context, text);
  const wire = resolveText(context, text.slice(0, at));
  if (!wire.ok) return wire;
  const end = resolveText(context, text.slice(at + 1));
  if (!end.ok) return end;
  const isJoint = end.value.type === "stud" || end.value.type === "splice";
  const node = end.value.groups[0]?.[0] ?? -1;
  if (wire.value.type === "wire" && isJoint && wire.value.groups.flat().includes(node)) {
    return ok({ type: "wire-end", id: `${wire.value.id}@${end.value.id}`, wire: wire.value, at: end.value });
  }
  const reason = `${wire.value.id} does not end at ${end.value.id}: an end is written as wire@stud or wire@splice.`;
  const items = [wire.value, end.value];
  return err(unresolved(context, { kind: "unknown", asked: text, text: reason, items }));
}
