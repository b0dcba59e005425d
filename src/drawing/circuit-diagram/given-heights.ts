import { findCircuits, shortestPath, waysThrough, type Circuit, type SideRole } from "../../connectivity/index.ts";
import { supplyTerminals } from "../../harness-model/index.ts";
import type { Box, BoxPin, Joint } from "./diagram-graph.ts";
import type { DiagramScope } from "./diagram-scope.ts";

/** Heights of the pins of a part that is drawn as a box: below all that feeds it and, where it has ground pins, above the ground. */
const PART = { above: 0, betweenSides: 0.4, groundSide: 0.35 } as const;

/**
 * The height that a pin of a box is given: 1 where it feeds, 0 where it takes current, 0.5 at the supply of a control unit itself.
 *
 * @param box The box.
 * @param pin One of its pins.
 */
export function boxPinHeight(scope: DiagramScope, box: Box, pin: BoxPin): number {
  if (scope.circuits.length === 0) return netPinHeight(scope, box, pin);
  const own = ownId(box);
  const circuits = scope.circuits.filter((circuit) => pin.nodes.some((node) => circuit.nodes.has(node)));
  if (own !== undefined && scope.opened.has(own)) return partPinHeight(scope, own, pin);
  const served = circuits.find((circuit) => isOwn(circuit, box));
  const ending = circuits.find((circuit) => !isOwn(circuit, box));
  if (ending) {
    if (ending.component !== undefined && scope.opened.has(ending.component)) return 1;
    return hasRole(ending, "supply") ? 0 : 1;
  }
  return served && (hasRole(served, "supply") || hasRole(served, "ground")) ? 0.5 : 1;
}

function ownId(box: Box): string | undefined {
  return box.component?.id;
}

function isOwn(circuit: Circuit, box: Box): boolean {
  if (box.component) return circuit.component === box.component.id;
  return box.connector !== undefined && box.pins.some((pin) => pin.item.id === circuit.serves.id);
}

function hasRole({ sides }: Circuit, role: "supply" | "ground"): boolean {
  return sides.some((side) => side.role === role);
}

function partPinHeight(scope: DiagramScope, component: string, pin: BoxPin): number {
  const sides = scope.circuits.filter((circuit) => circuit.component === component).flatMap((circuit) => circuit.sides);
  const isGround = (nodes: readonly number[]): boolean =>
    sides.some((side) => side.role === "ground" && nodes.includes(side.terminal));
  if (!sides.some((side) => side.role === "ground")) return PART.above;
  return isGround(pin.nodes) ? PART.groundSide : PART.betweenSides;
}

/** In a net: parts on the way to the supply are above, those on the way to the ground below; a control unit feeds what has neither. */
function netPinHeight(scope: DiagramScope, box: Box, { nodes }: BoxPin): number {
  const side = netSide(scope);
  if (side) return heightTowards(scope, nodes, side);
  return box.component?.kind === "module" || box.component === undefined ? 1 : 0;
}

/** The side of its circuits that a net lies on; undefined where circuits disagree or know nothing of it. */
function netSide({ harness, nodes }: DiagramScope): "supply" | "ground" | undefined {
  const { all, ofNode } = findCircuits(harness);
  const roles = new Set<SideRole>();
  for (const node of nodes) {
    for (const at of ofNode.get(node) ?? [])
      for (const side of all[at]?.sides ?? []) if (side.nodes.has(node)) roles.add(side.role);
  }
  if (roles.has("supply") === roles.has("ground")) return undefined;
  return roles.has("supply") ? "supply" : "ground";
}

function heightTowards(scope: DiagramScope, nodes: readonly number[], side: "supply" | "ground"): number {
  const isTowards = nodes.some(
    (node) => stepsTo(scope, [node], side) < stepsTo(scope, scope.asked.groups.flat(), side),
  );
  return isTowards === (side === "supply") ? 1 : 0;
}

/** Steps from the nearest of some nodes to the nearest supply terminal of a side, through switches and fuses. */
function stepsTo({ harness }: DiagramScope, nodes: readonly number[], side: "supply" | "ground"): number {
  const terminals = supplyTerminals(harness)[side === "supply" ? "positive" : "negative"];
  const { passage } = waysThrough(harness, "switches-and-fuses");
  return Math.min(
    ...nodes.flatMap((from) =>
      terminals.map((to) => {
        const path = shortestPath(harness.index, passage, { from, to });
        return path.kind === "found" ? path.edges.length : Infinity;
      }),
    ),
  );
}

/**
 * The height that a joint is given: the supply, the ground and, in a net, the joints at its rim: above where they lie on the way to the
 * supply, below where they lie on the way to the ground.
 *
 * @returns The height; undefined where it follows from its neighbours.
 */
export function jointHeight(scope: DiagramScope, joint: Joint): number | undefined {
  if (joint.look === "supply") return 1;
  if (joint.look === "ground") return 0;
  if (scope.circuits.length > 0) return undefined;
  const isAsked = scope.asked.groups.some((group) => group.includes(joint.node));
  if (isAsked && (joint.look === "splice" || joint.look === "stud")) return 0.5;
  if (joint.look !== "splice" && joint.look !== "stud") return joint.look === "open" ? 0 : undefined;
  const side = netSide(scope);
  return side ? heightTowards(scope, [joint.node], side) : 1;
}
