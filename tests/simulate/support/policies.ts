import { isMeterCheck, planNext, splitCases, allCases, type Check, type JobState } from "ohmward/diagnosis";
import type { Harness } from "ohmward/harness-model";

/** Chooses the key of the next check; undefined when nothing tells anything more. */
export type Policy = (state: JobState) => string | undefined;

/** Less information than this is not worth any time; the same limit for every policy. */
const LEAST_BITS = 0.04;

/** Walking the circuit from the module end: of the checks that tell something the one whose point is the fewest joints from a module. */
export function walkFromModule(harness: Harness): Policy {
  const steps = stepsFromModules(harness);
  return (state) => {
    const { plan, ranked } = planNext(state);
    const telling = ranked.filter(({ bits }) => bits >= LEAST_BITS);
    const far = (check: Check | undefined): number =>
      check && isMeterCheck(check) ? (steps.get(check.red.at ?? "") ?? 50) : 60;
    const best = telling.toSorted((a, b) => far(plan.checks[a.test]) - far(plan.checks[b.test]) || b.bits - a.bits)[0];
    return best && plan.checks[best.test]?.key;
  };
}

/** Halving by count: the check whose largest outcome leaves the fewest repair groups, whatever their weights and the time it takes. */
export const halveByCount: Policy = (state) => {
  const { plan, ranked } = planNext(state);
  const { problem } = plan;
  const cases = allCases(problem);
  let best: { readonly key: string; readonly left: number; readonly bits: number } | undefined;
  for (const { test, bits } of ranked) {
    const planTest = problem.tests[test];
    const key = plan.checks[test]?.key;
    if (!planTest || key === undefined || bits < LEAST_BITS) continue;
    const parts = splitCases(cases, planTest);
    const left = Math.max(...parts.map((part) => new Set(Array.from(part, (index) => problem.groups[index])).size));
    if (!best || left < best.left || (left === best.left && bits > best.bits)) best = { key, left, bits };
  }
  return best?.key;
};

function stepsFromModules(harness: Harness): ReadonlyMap<string, number> {
  const { offsets, targets } = harness.index;
  const steps = new Map<number, number>();
  let layer: number[] = [];
  harness.nodes.forEach((node, number) => {
    if (node.kind !== "contact" || node.side.id !== "device" || node.connector.component === undefined) return;
    if (harness.fitted.components.get(node.connector.component)?.kind === "module") layer.push(number);
  });
  for (let depth = 0; layer.length > 0; depth++) {
    for (const number of layer) if (!steps.has(number)) steps.set(number, depth);
    layer = layer.flatMap((number) =>
      [...targets.slice(offsets[number], offsets[number + 1])].filter((next) => !steps.has(next)),
    );
  }
  return new Map([...steps].map(([number, depth]) => [harness.nodes[number]?.key ?? "", depth]));
}
