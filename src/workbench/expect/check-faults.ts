import type { Machine } from "../open-machine.ts";
import type { OpenSetting } from "../question.ts";
import { setScene } from "../scene.ts";
import { readConditions } from "./read-conditions.ts";

/** A fault as typed, understood: its canonical text and words, or what is wrong with it. */
export type CheckedFault =
  | { readonly kind: "understood"; readonly typed: string; readonly text: string; readonly label: string }
  | { readonly kind: "wrong"; readonly typed: string; readonly problem: string };

/**
 * Reads faults one by one, before anything is asked with them.
 *
 * @param machine The machine.
 * @param setting Build and state.
 * @param texts Faults in the text form of `parseFault`.
 * @returns One entry a text, in the same order.
 */
export function checkFaults(machine: Machine, setting: OpenSetting, texts: readonly string[]): readonly CheckedFault[] {
  const scene = setScene(machine, setting);
  return texts.map((typed): CheckedFault => {
    if (!scene.ok) return { kind: "wrong", typed, problem: scene.error.text };
    const read = readConditions(scene.value, { faults: [typed] });
    if (!read.ok) {
      const { error } = read;
      const problem = error.kind === "wrong-question" ? error.problems.map(({ text }) => text).join(" ") : error.text;
      return { kind: "wrong", typed, problem };
    }
    const [fault] = read.value.facts.faults;
    return { kind: "understood", typed, text: fault?.text ?? typed, label: fault?.label ?? typed };
  });
}
