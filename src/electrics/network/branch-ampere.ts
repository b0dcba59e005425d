import type { Settled } from "./settle.ts";

/**
 * Current in a part from its first node to its second, in ampere. Through a part of 0 ohm flows what the parts behind it draw.
 *
 * @param settled The settled circuit.
 * @param at Number of the part.
 * @returns Ampere; undefined for a part of 0 ohm that lies in a ring of such parts, whose share cannot be told.
 */
export function branchAmpere(settled: Settled, at: number): number | undefined {
  const { list, values } = settled;
  if (values.ohm[at] === Infinity) return 0;
  if (values.ohm[at] !== 0) return ownAmpere(settled, at);
  const behind = joinedBehind(settled, at);
  if (behind.has(list.shape.from[at] ?? 0)) return undefined;
  let drawn = 0;
  for (let other = 0; other < list.parts.length; other++) {
    const leaves = behind.has(list.shape.from[other] ?? 0);
    if (leaves === behind.has(list.shape.to[other] ?? 0) || other === at) continue;
    const ampere = values.ohm[other] === Infinity ? 0 : ownAmpere(settled, other);
    drawn += leaves ? ampere : -ampere;
  }
  return drawn;
}

/** The nodes that other parts of 0 ohm join to the second node of one. */
function joinedBehind({ list, values }: Settled, at: number): ReadonlySet<number> {
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

function ownAmpere({ list, values, solved }: Settled, at: number): number {
  const from = list.shape.from[at] ?? 0;
  const to = list.shape.to[at] ?? 0;
  const driving = (solved.volts[from] ?? 0) - (solved.volts[to] ?? 0) + (values.volt[at] ?? 0);
  return driving / (values.ohm[at] ?? Infinity);
}
