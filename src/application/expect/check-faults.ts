import type { Machine } from "../open-machine.ts";
import type { OpenSetting } from "../question.ts";
import { resolveContext } from "../machine-context.ts";
import { readConditions } from "./read-conditions.ts";

/** A fault as typed, understood: its canonical text and words, or what is wrong with it, with the ways to write it. */
export type CheckedFault =
  | { readonly kind: "understood"; readonly typed: string; readonly text: string; readonly label: string }
  | { readonly kind: "wrong"; readonly typed: string; readonly problem: string; readonly ways: readonly string[] };

/**
 * Reads faults one by one, before anything is asked with them.
 *
 * @param machine The machine.
 * @param setting Build and state.
 * @param texts Faults in the text form of `parseFault`.
 * @returns One entry a text, in the same order.
 */
export function checkFaults(machine: Machine, setting: OpenSetting, texts: readonly string[]): readonly CheckedFault[] {
  const context = resolveContext(machine, setting);
  return texts.map((typed): CheckedFault => {
    if (!context.ok) return { kind: "wrong", typed, problem: context.error.text, ways: [] };
    const read = readConditions(context.value, { faults: [typed] });
    if (!read.ok) {
      const { error } = read;
      if (error.kind !== "wrong-question") return { kind: "wrong", typed, problem: error.text, ways: [] };
      const problem = error.problems.map(({ text }) => text).join(" ");
      return { kind: "wrong", typed, problem, ways: error.problems.flatMap(({ ways = [] }) => ways) };
    }
    const [fault] = read.value.facts.faults;
    return { kind: "understood", typed, text: fault?.text ?? typed, label: fault?.label ?? typed };
  });
}
