import type { Harness, State } from "../model/index.ts";
import { reach, type Passage } from "../trace/index.ts";

/**
 * What stays on the battery when the machine is isolated: the battery terminal on the isolator's side and all that hangs on it.
 *
 * Isolator switches count as open, other switches and relay contacts as the state says, or as they are at rest; loads and
 * everything else lead on. Of the two sides of the battery the island is the one the isolator cuts off from the machine, so the
 * smaller. Where no isolator parts them (a clamp is taken off instead), only the positive terminal counts.
 *
 * @param harness The harness.
 * @param state A state with the condition `isolated`; in any other the whole machine is live and the answer is not needed.
 * @returns Node numbers.
 */
export function findBatteryIsland(harness: Harness, state: State): ReadonlySet<number> {
  const passage = passageIn(harness, state);
  const island = new Set<number>();
  harness.edges.forEach((edge, number) => {
    if (edge.kind !== "element" || edge.element.kind !== "source" || edge.element.role !== "battery") return;
    const positive = harness.index.from[number] ?? -1;
    const negative = harness.index.to[number] ?? -1;
    const fromPositive = reach(harness.index, passage, [positive]);
    const fromNegative = reach(harness.index, passage, [negative]);
    const isParted = fromPositive.reached[negative] === 0;
    const smaller = fromPositive.order.length <= fromNegative.order.length ? fromPositive : fromNegative;
    for (const node of isParted ? smaller.order : [positive]) island.add(node);
  });
  return island;
}

function passageIn(harness: Harness, state: State): Passage {
  const settings = new Map((state.settings ?? []).map((setting) => [setting.of, setting.is]));
  const edges = new Uint8Array(harness.edges.length).fill(1);
  harness.edges.forEach((edge, number) => {
    if (edge.kind !== "element") return;
    const { element, component } = edge;
    const set = settings.get(`${component.id}.${element.id}`);
    switch (element.kind) {
      case "switch":
        edges[number] = component.kind !== "isolator" && (set ?? element.rest) === "closed" ? 1 : 0;
        break;
      case "contact":
        edges[number] = (set ?? (element.form === "break" ? "closed" : "open")) === "closed" ? 1 : 0;
        break;
      case "source":
        edges[number] = 0;
        break;
      case "resistor":
      case "ntc":
      case "coil":
      case "fuse":
      case "bias":
      case "driver":
      case "divider":
      case "load":
      case "lamp":
      case "diode":
      case "bar":
        break;
    }
  });
  return { edges, nodes: new Uint8Array(harness.nodes.length).fill(1) };
}
