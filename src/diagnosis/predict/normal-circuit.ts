import { keptFor, keptIn } from "../../base/index.ts";
import { solveCircuit, type SolvedCircuit, type OperatingPoint } from "../../simulation/index.ts";
import type { Harness, State } from "../../harness-model/index.ts";

const answers = keptFor((_: Harness) => new Map<string, SolvedCircuit>());

/** The healthy machine in a state, worked out once. */
export function normalCircuit(harness: Harness, state: string): SolvedCircuit {
  return keptIn(answers(harness), state, () => solveCircuit(harness, { state }));
}

/** The healthy machine in a state; undefined where it has no steady one. */
export function normalMachine(harness: Harness, state: string): OperatingPoint | undefined {
  const answer = normalCircuit(harness, state);
  return answer.kind === "settled" ? answer : undefined;
}

/** An element counts as more alive in a state if its voltage is this much larger, as a factor and in volt. */
const MORE_FACTOR = 1.5;
const MORE_VOLT = 0.5;

/**
 * The states worth measuring in: isolated ones for ohms, and of the live ones each in which some element of a circuit gets plainly more
 * voltage than in the quieter ones before it.
 *
 * @returns States, the quietest live one first, isolated ones last.
 */
export function statesToMeasure(harness: Harness, edges: ReadonlySet<number>): readonly State[] {
  const { states } = harness.document;
  const isolated = states.filter(({ conditions }) => conditions.includes("battery-disconnected"));
  const live = states
    .filter(({ conditions }) => !conditions.includes("battery-disconnected"))
    .sort((a, b) => unrest(a) - unrest(b));
  const elements = [...edges].filter((number) => harness.edges[number]?.kind === "element");
  const most = new Map<number, number>();
  const kept = live.filter((state, index) => {
    const answer = normalCircuit(harness, state.id);
    if (answer.kind !== "settled") return false;
    let isMore = index === 0;
    for (const edge of elements) {
      const [from, to] = [harness.index.from[edge] ?? 0, harness.index.to[edge] ?? 0];
      const { volts, islands } = answer.solved;
      const volt = islands[from] === islands[to] ? Math.abs((volts[from] ?? 0) - (volts[to] ?? 0)) : 0;
      const before = most.get(edge) ?? 0;
      if (volt > MORE_FACTOR * before + MORE_VOLT) isMore = true;
      most.set(edge, Math.max(before, volt));
    }
    return isMore;
  });
  return [...kept, ...isolated];
}

/** Key on before key off and alive: there a dead circuit says little. Then engine stopped before cranking before running. */
function unrest({ conditions, settings = [] }: State): number {
  if (conditions.includes("running")) return 4;
  if (conditions.includes("cranking")) return 3;
  if (!conditions.includes("key-on")) return 2;
  // Of two states with the key on the one with less switched on by the machine itself.
  return settings.filter(({ is }) => is === "on" || typeof is === "object").length / 1000;
}
