import { keptFor } from "../../base/index.ts";
import { waysThrough, type Circuit, type Item } from "../../connectivity/index.ts";
import type { Code, Harness } from "../../harness-model/index.ts";

/** Of the circuits of a control unit those that feed it: if they work it is alive. For anything else all of them. */
export function feedsAlone(harness: Harness, { type, id }: Item, circuits: readonly Circuit[]): readonly Circuit[] {
  if (type !== "component" || harness.fitted.components.get(id)?.kind !== "module") return circuits;
  const feeds = circuits.filter(({ sides }) =>
    (["supply", "ground"] as const).every((wanted) => sides.some(({ role }) => role === wanted)),
  );
  return feeds.length > 0 ? feeds : circuits;
}

/** Points of a code as its module sees them: the device side of the contact where there is one. */
export function pointsOfCode(harness: Harness, code: Code): readonly string[] {
  return code.points.map((address) => deviceSide(harness, address));
}

function deviceSide(harness: Harness, address: string): string {
  const colon = address.lastIndexOf(":");
  const inside = `${address.slice(0, colon)}.device${address.slice(colon)}`;
  return colon > 0 && harness.nodeNumbers.has(inside) ? inside : address;
}

/** A control unit on a data bus, with its pin on each line in the order of the points of a code. */
export interface BusMember {
  readonly module: string;
  readonly pins: readonly string[];
}

/** The control units that a code about a data bus hears, those of its own module left out; none for any other code. */
export function busMembers(harness: Harness, code: Code): readonly BusMember[] {
  const { ofNode } = waysThrough(harness, "conductors").components;
  const lines = pointsOfCode(harness, code).map((point) => ofNode[harness.nodeNumbers.get(point) ?? -1] ?? -1);
  if (lines.length === 0 || !lines.every((line) => busLines(harness).has(line))) return [];
  const pinsOf = new Map<string, string[]>();
  harness.nodes.forEach((node, number) => {
    const line = lines.indexOf(ofNode[number] ?? -2);
    const module = node.kind === "contact" ? node.connector.component : undefined;
    if (node.kind !== "contact" || node.side.id !== "device" || line < 0 || module === undefined) return;
    if (module === code.module || harness.fitted.components.get(module)?.kind !== "module") return;
    const pins = pinsOf.get(module) ?? [];
    pins[line] = node.key;
    pinsOf.set(module, pins);
  });
  return [...pinsOf]
    .filter(([, pins]) => lines.every((_, line) => pins[line] !== undefined))
    .map(([module, pins]) => ({ module, pins }));
}

/** The lines of data buses, by the number that conductors alone give them. */
const busLines = keptFor((harness: Harness): ReadonlySet<number> => {
  const { ofNode } = waysThrough(harness, "conductors").components;
  const ofWires = harness.edges.flatMap((edge, number) =>
    edge.kind === "wire" && harness.nets.get(edge.wire.net ?? "")?.kind === "data-bus"
      ? [ofNode[harness.index.from[number] ?? -1] ?? -1]
      : [],
  );
  return new Set(ofWires);
});
