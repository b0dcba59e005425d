import { keptFor, keptIn } from "../../base/index.ts";
import { drivenAmpere, solveCircuit, type SolvedCircuit, type OperatingPoint } from "../../simulation/index.ts";
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

/** An element counts as more alive in a state if it carries this much more current, as a factor and in ampere. */
const MORE_FACTOR = 1.5;
const MORE_AMPERE = 0.02;

/** Elements that a circuit is there for. */
const WORKING: ReadonlySet<string> = new Set(["load", "lamp", "coil", "resistor", "alternator", "driver"]);

/** The current in each thing of a machine as it stands, in ampere, by owner: `W78`, `XE1:1`, `A3.F3`, `W78@SP13`. */
export const currentsOf = keptFor((operatingPoint: OperatingPoint): ReadonlyMap<string, number> => {
  const { list, values, solved } = operatingPoint;
  const currents = new Map<string, number>();
  list.parts.forEach((part, at) => {
    const ohm = values.ohm[at] ?? Infinity;
    const [from, to] = [list.shape.from[at] ?? 0, list.shape.to[at] ?? 0];
    if (!(ohm > 0) || ohm === Infinity || solved.islands[from] !== solved.islands[to]) return;
    currents.set(part.owner, Math.max(currents.get(part.owner) ?? 0, Math.abs(drivenAmpere(operatingPoint, at))));
  });
  return currents;
});

/**
 * The states worth measuring in: isolated ones for ohms, and of the live ones each in which some element of a circuit carries plainly more
 * current than in the quieter ones before it.
 *
 * @returns States, the quietest live one first, isolated ones last.
 */
export function statesToMeasure(harness: Harness, edges: ReadonlySet<number>): readonly State[] {
  const { states } = harness.document;
  const isolated = states.filter(({ conditions }) => conditions.includes("battery-disconnected"));
  const live = states
    .filter(({ conditions }) => !conditions.includes("battery-disconnected"))
    .sort((a, b) => unrest(a) - unrest(b));
  // The battery, fuses and contacts on the way carry current for others too, whatever the complaint is about.
  const elements = [...edges].flatMap((number) => {
    const edge = harness.edges[number];
    return edge?.kind === "element" &&
      WORKING.has(edge.element.kind === "source" ? edge.element.role : edge.element.kind)
      ? [`${edge.component.id}.${edge.element.id}`]
      : [];
  });
  const most = new Map<string, number>();
  const kept = live.filter((state, index) => {
    const answer = normalCircuit(harness, state.id);
    if (answer.kind !== "settled") return false;
    let isMore = index === 0;
    const currents = currentsOf(answer);
    for (const element of elements) {
      const ampere = currents.get(element) ?? 0;
      const before = most.get(element) ?? 0;
      if (ampere > MORE_FACTOR * before + MORE_AMPERE) isMore = true;
      most.set(element, Math.max(before, ampere));
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
