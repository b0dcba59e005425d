import { resolve, type Resolved } from "ohmward/connectivity";
import { circuitDiagram, type CircuitDiagram, type DiagramOptions } from "ohmward/drawing";
import type { Harness } from "ohmward/harness-model";

/** An item of a harness with its diagram. */
export interface Drawn {
  readonly name: string;
  readonly of: Resolved;
  readonly diagram: CircuitDiagram;
}

/** The item that an id names; throws where it names none. */
export function itemOf(harness: Harness, id: string): Resolved {
  const found = resolve(harness, id);
  if (found.kind !== "one") throw new Error(`"${id}" is ${found.kind}`);
  return found.item;
}

/** Every component, splice, stud and wire that is fitted, by id. */
export function allIds({ fitted }: Harness): readonly string[] {
  const { components, splices, terminalStuds, wires } = fitted;
  return [components, splices, terminalStuds, wires].flatMap((items) => [...items.keys()]);
}

/** Draws every item that has a diagram of its own. */
export function drawAll(harness: Harness, ids: readonly string[], options: DiagramOptions = {}): readonly Drawn[] {
  return ids.flatMap((name) => {
    const found = resolve(harness, name);
    if (found.kind !== "one") return [];
    const diagram = circuitDiagram(harness, found.item, options);
    return diagram.kind === "diagram" ? [{ name, of: found.item, diagram }] : [];
  });
}

/** The diagram of an item; throws where it has none. */
export function diagramOf(harness: Harness, id: string, options: DiagramOptions = {}): CircuitDiagram {
  const diagram = circuitDiagram(harness, itemOf(harness, id), options);
  if (diagram.kind !== "diagram") throw new Error(`${id}: ${diagram.kind}`);
  return diagram;
}
