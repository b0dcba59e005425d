import { describeItem, type Item } from "../../connectivity/index.ts";
import type { UnresolvedAnswer } from "../answer.ts";
import type { MachineContext } from "../machine-context.ts";

/** Why a name is no single point. */
export interface NoPoint {
  readonly kind: "unknown" | "ambiguous";
  readonly asked: string;
  readonly text: string;
  readonly items: readonly Item[];
}

/**
 * An answer that asks for another name.
 *
 * @param context The machine in its build and state.
 * @param why What was typed, what is wrong with it, and what to choose from.
 */
export function unresolved(context: MachineContext, { kind, asked, text, items }: NoPoint): UnresolvedAnswer {
  return {
    kind,
    machine: context.machine.document.about.machine,
    build: context.harness.build.id,
    text,
    asked: asked.trim(),
    items: items.map((item) => describeItem(context.harness, item)),
  };
}
