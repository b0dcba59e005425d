import { compareHarnesses } from "ohmward/comparison";
import { openHarness, type OpenedHarness } from "ohmward/harness-model";
import { generateHarness } from "../../generate/generate-harness.ts";
import { changeMachine } from "./change-machine.ts";
import { scoreComparison } from "./score-comparison.ts";

/** Makes pairs of machines with known changes, compares them, and adds up how well the changes were found. */
export function comparePairs({
  from,
  pairs,
  renameAll,
  isNameless = false,
}: {
  readonly from: number;
  readonly pairs: number;
  readonly renameAll: boolean;
  /** Whether all labels are the same, so that only the wiring tells things apart. */
  readonly isNameless?: boolean;
}): {
  readonly precision: number;
  readonly recall: number;
  readonly partnered: number;
  readonly notes: string;
} {
  const sum = { made: 0, found: 0, right: 0, renamed: 0, partnered: 0 };
  const notes: string[] = [];
  for (let seed = from; seed < from + pairs; seed++) {
    const machine = generateHarness({ seed, wires: 40 + ((seed * 37) % 360) });
    const { components, connectors, codes, terminalStuds } = machine;
    if (isNameless) for (const one of [components, connectors, codes, terminalStuds].flat()) one.label = "Item";
    const pair = changeMachine(machine, seed, { works: 1 + (seed % 40), renameAll });
    const found = scoreComparison(compareHarnesses(opened(pair.before), opened(pair.after)), pair);
    for (const key of ["made", "found", "right", "renamed", "partnered"] as const) sum[key] += found[key];
    for (const each of found.missed) notes.push(`${seed} missed ${each}`);
    for (const each of found.wrong) notes.push(`${seed} wrong ${each}`);
  }
  return {
    precision: sum.right / sum.found,
    recall: sum.right / sum.made,
    partnered: sum.renamed === 0 ? 1 : sum.partnered / sum.renamed,
    notes: `${JSON.stringify(sum)}\n${notes.join("\n")}`,
  };
}

/** A pair counts only where both open without errors. */
function opened(document: unknown): OpenedHarness {
  const result = openHarness(JSON.stringify(document));
  if (!result.ok) throw new Error(JSON.stringify(result.error.slice(0, 5)));
  return result.value;
}
