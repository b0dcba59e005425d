import type { Harness } from "ohmward/harness-model";
import {
  describeItem,
  find,
  findPaths,
  findCircuit,
  findCommon,
  findNet,
  findRoute,
  findOpenEffect,
  resolve,
  type Resolved,
} from "ohmward/connectivity";

/** The thing a text names; throws if it names none. */
export function ask(harness: Harness, text: string): Resolved {
  const found = resolve(harness, text);
  if (found.kind !== "one") throw new Error(`"${text}" is ${found.kind}`);
  return found.item;
}

/** One question of every kind about a pair of things, with all answers as plain data. */
export function askAll(harness: Harness, from: string, to: string): Readonly<Record<string, unknown>> {
  const [first, second] = [ask(harness, from), ask(harness, to)];
  const edges = findNet(harness, first).items.flatMap((item) => harness.edgeNumbers.get(item.id) ?? []);
  return {
    net: findNet(harness, first).items,
    circuit: findCircuit(harness, first),
    between: findPaths(harness, [first, second]),
    shared: findCommon(harness, [
      { item: first, mark: "bad" },
      { item: second, mark: "bad" },
    ]),
    without: findOpenEffect(harness, first),
    route: findRoute(harness, edges),
    find: find(harness, from),
    facts: describeItem(harness, { type: first.type, id: first.id }),
  };
}

/**
 * The nets of a harness that have a wire, as sets of addresses of contacts, splices and studs with the wires in each, in order. Points
 * inside components are left out.
 */
export function conductorNets(harness: Harness): readonly string[] {
  const seen = new Set<string>();
  const nets: string[] = [];
  for (const node of harness.nodes) {
    if (node.kind === "inner" || seen.has(node.key)) continue;
    const items = findNet(harness, ask(harness, node.key)).items;
    const points = items.flatMap(({ type, id }) => (["contact", "splice", "stud", "wire"].includes(type) ? [id] : []));
    for (const id of points) seen.add(id);
    seen.add(node.key);
    if (items.some((item) => item.type === "wire")) nets.push(points.sort().join(" "));
  }
  return [...new Set(nets)].sort();
}
