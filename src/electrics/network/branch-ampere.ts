import type { Settled } from "./settle.ts";

/**
 * Current in a part from its first node to its second, in ampere. In a part of 0 ohm it is that of the one part it stands in series with.
 *
 * @param settled The settled circuit.
 * @param at Number of the part.
 * @returns Ampere; undefined for a part of 0 ohm that shares its nodes, whose share cannot be told.
 */
export function branchAmpere(settled: Settled, at: number): number | undefined {
  const { list, values } = settled;
  if (values.ohm[at] === Infinity) return 0;
  if (values.ohm[at] !== 0) return ownAmpere(settled, at);
  const from = list.shape.from[at] ?? 0;
  const to = list.shape.to[at] ?? 0;
  return throughNode(settled, at, from) ?? throughNode(settled, at, to);
}

function ownAmpere({ list, values, solved }: Settled, at: number): number {
  const from = list.shape.from[at] ?? 0;
  const to = list.shape.to[at] ?? 0;
  const driving = (solved.volts[from] ?? 0) - (solved.volts[to] ?? 0) + (values.volt[at] ?? 0);
  return driving / (values.ohm[at] ?? Infinity);
}

/** Current through a part by what the other parts at one of its nodes carry; undefined where another one has 0 ohm too. */
function throughNode(settled: Settled, at: number, node: number): number | undefined {
  const { list, values } = settled;
  let intoNode = 0;
  for (let other = 0; other < list.parts.length; other++) {
    const isFrom = list.shape.from[other] === node;
    const isTo = list.shape.to[other] === node;
    if (other === at || isFrom === isTo || values.ohm[other] === Infinity) continue;
    if (values.ohm[other] === 0) return undefined;
    intoNode += (isTo ? 1 : -1) * ownAmpere(settled, other);
  }
  return list.shape.from[at] === node ? intoNode : -intoNode;
}
