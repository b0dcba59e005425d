import {
  describeItem,
  findCircuit,
  findNet,
  type FoundCircuits,
  type CircuitPart,
  type Item,
} from "../connectivity/index.ts";
import type { CircuitAnswer, UnresolvedAnswer } from "./answer.ts";
import { cautionsFor } from "./cautions.ts";
import { makeHeader } from "./header.ts";
import { notKnown } from "./not-known.ts";
import type { Question } from "./question.ts";
import { resolveText } from "./resolve-text.ts";
import { routeFacts } from "./route-facts.ts";
import type { MachineContext } from "./machine-context.ts";

/** What a circuit takes for granted. */
const ASSUMPTIONS: readonly string[] = [
  "Switches and relay contacts can close. Fuses are not blown.",
  "A circuit ends at the main supply, the main ground or the pins of control units.",
];

/**
 * The net of a thing, and the circuits it belongs to: what feeds them, what they serve, where they go to ground.
 *
 * @param context The machine in its build and state.
 * @param question The thing as typed.
 */
export function askCircuit(
  context: MachineContext,
  question: Extract<Question, { kind: "circuit" }>,
): CircuitAnswer | UnresolvedAnswer {
  const of = resolveText(context, question.point);
  if (!of.ok) return of.error;
  const { harness } = context;
  const net = findNet(harness, of.value);
  const circuit = findCircuit(harness, of.value);
  const isInCircuit = circuit.kind === "circuit";
  const items: readonly Item[] = isInCircuit ? [...net.items, ...circuit.items] : net.items;
  return {
    kind: "circuit",
    ...makeHeader(context, {
      cautions: cautionsFor(context, [of.value, ...items]),
      assumptions: isInCircuit ? ASSUMPTIONS : [],
      notKnown: notKnown(context, [of.value]),
    }),
    of: describeItem(harness, of.value),
    net: { labels: net.labels, items: net.items.map((item) => describeItem(harness, item)) },
    circuits: isInCircuit ? circuit.circuits.map((part) => describeCircuit(context, part)) : [],
    fuses: isInCircuit ? circuit.fuses.map((fuse) => fuse.id) : [],
    switches: isInCircuit ? switchesOf(circuit) : [],
    route: routeFacts(harness, isInCircuit ? circuit.edges : net.edges),
  } satisfies CircuitAnswer;
}

function describeCircuit(
  { harness }: MachineContext,
  { serves, sides }: CircuitPart,
): CircuitAnswer["circuits"][number] {
  return {
    serves: describeItem(harness, serves),
    sides: sides.map((side) => ({
      role: side.role,
      ways: side.ways.map((way) => way.map((item) => describeItem(harness, item))),
      items: side.items.map((item) => item.id),
    })),
  };
}

function switchesOf({ switches }: FoundCircuits): CircuitAnswer["switches"] {
  return switches.map(({ item, coil }) => ({ id: item.id, ...(coil && { coil: coil.id }) }));
}
