import { describeItem, findCircuit, findNet, type CircuitAnswer, type CircuitPart, type Item } from "../trace/index.ts";
import type { TraceAnswer, UnresolvedAnswer } from "./answer.ts";
import { cautionsFor } from "./cautions.ts";
import { makeHeader } from "./header.ts";
import { notKnown } from "./not-known.ts";
import type { Question } from "./question.ts";
import { resolveText } from "./resolve-text.ts";
import { routeFacts } from "./route-facts.ts";
import type { Scene } from "./scene.ts";

/** What a circuit takes for granted. */
const ASSUMPTIONS: readonly string[] = [
  "Switches and relay contacts count as able to close, fuses as whole.",
  "A circuit ends at the main supply, the main ground or the pins of control units.",
];

/**
 * The net of a thing, and the circuits it belongs to: what feeds them, what they serve, where they go to ground.
 *
 * @param scene The machine in its build and state.
 * @param question The thing as typed.
 */
export function askTrace(scene: Scene, question: Extract<Question, { kind: "trace" }>): TraceAnswer | UnresolvedAnswer {
  const of = resolveText(scene, question.point);
  if (!of.ok) return of.error;
  const { harness } = scene;
  const net = findNet(harness, of.value);
  const circuit = findCircuit(harness, of.value);
  const isInCircuit = circuit.kind === "circuit";
  const items: readonly Item[] = isInCircuit ? [...net.items, ...circuit.items] : net.items;
  return {
    kind: "trace",
    ...makeHeader(scene, {
      cautions: cautionsFor(scene, [of.value, ...items]),
      assumptions: isInCircuit ? ASSUMPTIONS : [],
      notKnown: notKnown(scene, [of.value]),
    }),
    of: describeItem(harness, of.value),
    net: { labels: net.labels, items: net.items.map((item) => describeItem(harness, item)) },
    circuits: isInCircuit ? circuit.circuits.map((part) => describeCircuit(scene, part)) : [],
    fuses: isInCircuit ? circuit.fuses.map((fuse) => fuse.id) : [],
    switches: isInCircuit ? switchesOf(circuit) : [],
    route: routeFacts(harness, isInCircuit ? circuit.edges : net.edges),
  } satisfies TraceAnswer;
}

function describeCircuit({ harness }: Scene, { serves, sides }: CircuitPart): TraceAnswer["circuits"][number] {
  return {
    serves: describeItem(harness, serves),
    sides: sides.map((side) => ({
      role: side.role,
      ways: side.ways.map((way) => way.map((item) => describeItem(harness, item))),
      items: side.items.map((item) => item.id),
    })),
  };
}

function switchesOf({ switches }: CircuitAnswer): TraceAnswer["switches"] {
  return switches.map(({ item, coil }) => ({ id: item.id, ...(coil && { coil: coil.id }) }));
}
