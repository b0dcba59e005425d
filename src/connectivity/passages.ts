import { keptFor, keptIn } from "../base/index.ts";
import { namedTerminal, type Element, type Harness } from "../harness-model/index.ts";
import {
  components,
  findBiconnectedComponents,
  type BiconnectedComponents,
  type Components,
  type Passage,
} from "./graph/index.ts";

/**
 * How far a trace goes:
 * - `conductors`: wires, mated contacts, splices and studs only, a net;
 * - `switches-and-fuses`: also fuses, switches, relay contacts, diodes and bars outside modules;
 * - `loads`: also loads and coils outside modules, but never on through the supply or the ground;
 * - `control-units`: every element, also inside modules.
 */
export type Through = "conductors" | "switches-and-fuses" | "loads" | "control-units";

/** From the narrowest to the widest. */
export const THROUGH: readonly Through[] = ["conductors", "switches-and-fuses", "loads", "control-units"];

/** What part an element plays in a trace. */
type ElementRole = "series" | "load" | "end";

/** The part an element plays: it passes current on, uses it, or ends the circuit inside a module. */
export function elementRole(element: Element): ElementRole {
  switch (element.kind) {
    case "bar":
    case "fuse":
    case "switch":
    case "contact":
    case "diode":
      return "series";
    case "resistor":
    case "ntc":
    case "coil":
    case "load":
    case "lamp":
    case "divider":
      return "load";
    case "source":
    case "bias":
    case "driver":
      return "end";
  }
}

/** Which rails a trace may run on through; a rail an end of the question lies on is passable. */
interface Rails {
  readonly supply: boolean;
  readonly ground: boolean;
}

/** A passage with what is known of it, worked out once. */
export interface PassageFacts {
  readonly passage: Passage;
  readonly components: Components;
  readonly blocks: BiconnectedComponents;
}

const waysOf = keptFor((_: Harness) => new Map<string, PassageFacts>());

/**
 * The ways through a harness at one width of trace.
 *
 * @param through How far the trace goes.
 * @param rails Whether supply and ground may be run through; matters for `loads` only.
 */
export function waysThrough(
  harness: Harness,
  through: Through,
  rails: Rails = { supply: false, ground: false },
): PassageFacts {
  const key = through === "loads" ? `${through} ${rails.supply} ${rails.ground}` : through;
  return keptIn(waysOf(harness), key, () => makeWays(harness, makePassage(harness, through, rails)));
}

/** The ways of the width `switches-and-fuses` that also run through bars inside modules: how a module itself is fed. */
export const waysInsideModules = keptFor((harness: Harness): PassageFacts => {
  const passage = makePassage(harness, "switches-and-fuses", { supply: true, ground: true });
  harness.edges.forEach((edge, number) => {
    if (edge.kind === "element" && edge.element.kind === "bar") passage.edges[number] = 1;
  });
  return makeWays(harness, passage);
});

function makeWays(harness: Harness, passage: Passage): PassageFacts {
  let blocks: BiconnectedComponents | undefined;
  return {
    passage,
    components: components(harness.index, passage),
    get blocks() {
      blocks ??= findBiconnectedComponents(harness.index, passage);
      return blocks;
    },
  };
}

function makePassage(harness: Harness, through: Through, rails: Rails): Passage {
  const edges = new Uint8Array(harness.edges.length);
  harness.edges.forEach((edge, number) => {
    if (edge.kind !== "element") edges[number] = 1;
    else edges[number] = isPassed(elementRole(edge.element), edge.component.kind === "module", through) ? 1 : 0;
  });
  const nodes = new Uint8Array(harness.nodes.length).fill(1);
  if (through === "loads") {
    const rail = railNodes(harness);
    nodes.forEach((_, number) => {
      if ((rail.supply[number] && !rails.supply) || (rail.ground[number] && !rails.ground)) nodes[number] = 0;
    });
  }
  return { edges, nodes };
}

function isPassed(role: ElementRole, isInModule: boolean, through: Through): boolean {
  if (through === "control-units") return true;
  if (through === "conductors" || isInModule || role === "end") return false;
  return role === "series" || through === "loads";
}

/** Per node 1 if it lies on the supply or on the ground. */
interface RailNodes {
  readonly supply: Uint8Array;
  readonly ground: Uint8Array;
}

/**
 * The nodes that conductors and bars alone join to a stud whose role is supply or ground, or to the main supply terminals. A trace of a
 * circuit ends there: everything hangs on them.
 */
export const railNodes = keptFor((harness: Harness): RailNodes => {
  const passage = makePassage(harness, "conductors", { supply: true, ground: true });
  harness.edges.forEach((edge, number) => {
    if (edge.kind === "element" && edge.element.kind === "bar" && edge.component.kind !== "module")
      passage.edges[number] = 1;
  });
  const { ofNode } = components(harness.index, passage);
  const rails = { supply: new Uint8Array(harness.nodes.length), ground: new Uint8Array(harness.nodes.length) };
  for (const role of ["supply", "ground"] as const) {
    const main = namedTerminal(harness, role);
    const parts = new Set<number>(main === undefined ? [] : [ofNode[main] ?? -1]);
    harness.nodes.forEach((node, number) => {
      if (node.kind === "stud" && node.stud.role === role) parts.add(ofNode[number] ?? -1);
    });
    ofNode.forEach((part, number) => {
      if (parts.has(part)) rails[role][number] = 1;
    });
  }
  return rails;
});
