import { describeItem, type Item } from "../../trace/index.ts";
import type { UnresolvedAnswer } from "../answer.ts";
import type { Scene } from "../scene.ts";

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
 * @param scene The machine in its build and state.
 * @param why What was typed, what is wrong with it, and what to choose from.
 */
export function unresolved(scene: Scene, { kind, asked, text, items }: NoPoint): UnresolvedAnswer {
  return {
    kind,
    machine: scene.machine.document.about.machine,
    build: scene.harness.build.id,
    text,
    asked: asked.trim(),
    items: items.map((item) => describeItem(scene.harness, item)),
  };
}
