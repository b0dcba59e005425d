import { naturalOrder } from "../../base/index.ts";
import type { OperatingPoint } from "./settle.ts";

/** The voltage of a point, or that it has none because nothing ties it to the rest. */
export type NodeVolts =
  { readonly kind: "dc-voltage"; readonly volt: number } | { readonly kind: "floating"; readonly island: string };

/**
 * The voltage of a node against another one.
 *
 * @param reference Number of the node at 0 V; the negative supply terminal when left out.
 * @returns Volt; `floating` with the name of its island if no current can flow between the two.
 */
export function nodeVolts(
  operatingPoint: OperatingPoint,
  node: number,
  reference = operatingPoint.list.reference,
): NodeVolts {
  const { volts, islands } = operatingPoint.solved;
  if (islands[node] !== islands[reference])
    return { kind: "floating", island: islandName(operatingPoint, floatingOne(operatingPoint, node, reference)) };
  return { kind: "dc-voltage", volt: (volts[node] ?? 0) - (volts[reference] ?? 0) };
}

/** Of two nodes in different islands the one that is not tied to the supply. */
function floatingOne({ solved, list }: OperatingPoint, node: number, reference: number): number {
  return solved.islands[node] === solved.islands[list.reference] ? reference : node;
}

/** A name for the island of a node: the first of its points in natural order, points a person can see before inner ones. */
export function islandName({ list, solved }: OperatingPoint, node: number): string {
  const island = solved.islands[node];
  const members = list.nodeKeys.filter((_, at) => solved.islands[at] === island);
  const visible = members.filter((key) => !key.includes("#") && !key.includes("@"));
  return (visible.length > 0 ? visible : members).toSorted(naturalOrder)[0] ?? "";
}

/**
 * Current in a part from its first node to its second, in ampere. Through a part of 0 ohm flows what the parts behind it draw.
 *
 * @returns Ampere; undefined for a part of 0 ohm that lies in a ring of such parts, whose share cannot be told.
 */
export function branchAmpere(operatingPoint: OperatingPoint, at: number): number | undefined {
  const { list, values } = operatingPoint;
  if (values.ohm[at] === Infinity) return 0;
  if (values.ohm[at] !== 0) return drivenAmpere(operatingPoint, at);
  const behind = joinedBehind(operatingPoint, at);
  if (behind.has(list.shape.from[at] ?? 0)) return undefined;
  let drawn = 0;
  for (let other = 0; other < list.parts.length; other++) {
    const leaves = behind.has(list.shape.from[other] ?? 0);
    if (leaves === behind.has(list.shape.to[other] ?? 0) || other === at) continue;
    const ampere = values.ohm[other] === Infinity ? 0 : drivenAmpere(operatingPoint, other);
    drawn += leaves ? ampere : -ampere;
  }
  return drawn;
}

/** The nodes that other parts of 0 ohm join to the second node of one. */
function joinedBehind({ list, values }: OperatingPoint, at: number): ReadonlySet<number> {
  const behind = new Set([list.shape.to[at] ?? 0]);
  for (let before = 0; before !== behind.size;) {
    before = behind.size;
    for (let other = 0; other < list.parts.length; other++) {
      if (other === at || values.ohm[other] !== 0) continue;
      const from = list.shape.from[other] ?? 0;
      const to = list.shape.to[other] ?? 0;
      if (behind.has(from)) behind.add(to);
      else if (behind.has(to)) behind.add(from);
    }
  }
  return behind;
}

/** Current in a part with a resistance of its own, from its first node to its second, in ampere. */
export function drivenAmpere({ list, values, solved }: OperatingPoint, at: number): number {
  const from = list.shape.from[at] ?? 0;
  const to = list.shape.to[at] ?? 0;
  const driving = (solved.volts[from] ?? 0) - (solved.volts[to] ?? 0) + (values.volt[at] ?? 0);
  return driving / (values.ohm[at] ?? Infinity);
}
