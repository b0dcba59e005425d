import { keptFor } from "../base/index.ts";
import { lookUpPoint, pointKey, type AddressUse } from "./address-book.ts";
import type { Harness } from "./harness.ts";
import type { HarnessEdge } from "./harness-parts.ts";

/**
 * The node that an address of the document names.
 *
 * @param harness The harness.
 * @param address The address, such as `A1.X1:36`.
 * @param use Who names it: a wire, or an element of a component.
 * @returns Its number; undefined where nothing that is fitted has the address.
 */
export function nodeAt(harness: Harness, address: string, use: AddressUse = { by: "wire" }): number | undefined {
  const point = lookUpPoint(harness.book, address, use);
  return point.kind === "none" ? undefined : harness.nodeNumbers.get(pointKey(point));
}

/**
 * The terminal of the main supply that the document names, as a node number.
 *
 * @returns The node; undefined where it names none, or none that is fitted.
 */
export function namedTerminal(harness: Harness, role: "supply" | "ground"): number | undefined {
  const { supply } = harness.document.system;
  return supply && nodeAt(harness, role === "supply" ? supply.positive : supply.negative);
}

/** The main supply terminals, as node numbers; where the document names none, the first stud of each role. */
export const mainTerminals = keptFor(
  (harness: Harness): { readonly positive: number | undefined; readonly negative: number | undefined } => {
    const terminal = (role: "supply" | "ground"): number | undefined => {
      const named = namedTerminal(harness, role);
      if (named !== undefined) return named;
      const stud = harness.nodes.findIndex((node) => node.kind === "stud" && node.stud.role === role);
      return stud < 0 ? undefined : stud;
    };
    return { positive: terminal("supply"), negative: terminal("ground") };
  },
);

/** Whether an edge is the inside of a battery, or of a socket that another machine feeds. */
export function isBattery(edge: HarnessEdge): boolean {
  return edge.kind === "element" && edge.element.kind === "source" && edge.element.role === "battery";
}

/**
 * Where circuits end on the supply and on the ground, as node numbers: the main terminals first, then the positive terminals of all
 * batteries; their negative ones where no main ground is known.
 */
export const supplyTerminals = keptFor(
  (harness: Harness): { readonly positive: readonly number[]; readonly negative: readonly number[] } => {
    const { positive, negative } = mainTerminals(harness);
    const { from, to } = harness.index;
    const batteries = harness.edges.flatMap((edge, number) => (isBattery(edge) ? [number] : []));
    const plus = batteries.flatMap((edge) => from[edge] ?? []);
    const minus = batteries.flatMap((edge) => to[edge] ?? []);
    return {
      positive: positive === undefined ? plus : [positive, ...plus],
      negative: negative === undefined ? minus : [negative],
    };
  },
);
