import { readingsAlong, type ReadingsAlong, type OperatingConditions } from "ohmward/simulation";
import type { Harness } from "ohmward/harness-model";

/** The voltages of one state. */
interface StateColumn {
  readonly state: string;
  readonly answer: ReadingsAlong;
}

/**
 * The whole table of a circuit: the voltage of every node in every state.
 *
 * @param harness The machine in one build.
 * @param question The situation apart from its state; numbers of the nodes; states by id, all of the machine when left out; the point
 *   at 0 V, the negative supply terminal when left out.
 * @returns One column a state, its stops in the order of the nodes.
 */
export function circuitTable(
  harness: Harness,
  question: {
    readonly operatingConditions?: OperatingConditions;
    readonly nodes: readonly number[];
    readonly states?: readonly string[];
    readonly reference?: string;
  },
): readonly StateColumn[] {
  const { operatingConditions = {}, nodes, reference } = question;
  const states = question.states ?? harness.document.states.map((state) => state.id);
  const way = { nodes, ...(reference === undefined ? {} : { reference }) };
  return states.map((state) => ({ state, answer: readingsAlong(harness, { ...operatingConditions, state }, way) }));
}
