import type { Fault, Part, PartList } from "../../electrics/index.ts";

/**
 * Names fault sets by what they do to readings: sets of one name give the same readings at every measured point.
 *
 * An open, or an added resistance, does the same wherever it sits in a stretch of plain conductors in line with nothing measured or branching
 * off in between. Most joints and wires of a machine lie in such stretches, so far fewer solutions are needed than there are faults.
 *
 * @param list The healthy parts of a standing.
 * @param measured Nodes of the list that a meter touches.
 * @returns A function from a fault set to its name.
 */
export function sameReadings(list: PartList, measured: Iterable<number>): (faults: readonly Fault[]) => string {
  const stretches = stretchOfOwner(list, measured);
  return (faults) => {
    const [fault] = faults;
    if (faults.length !== 1 || (fault?.kind !== "open" && fault?.kind !== "resistance")) return JSON.stringify(faults);
    const stretch = stretches.get(fault.of);
    if (stretch === undefined) return JSON.stringify(faults);
    return fault.kind === "open" ? `open ${stretch}` : `resistance ${stretch} ${fault.ohm}`;
  };
}

/** The stretch that a thing lies in, by number, for things that are one plain conductor. */
function stretchOfOwner(list: PartList, measured: Iterable<number>): ReadonlyMap<string, number> {
  const { from, to } = list.shape;
  const ends = endsOf(list, measured);
  const plain = new Set([...list.parts.keys()].filter((at) => isPlain(list.parts[at])));
  const stretch = new Map<number, number>();
  for (const first of plain) {
    if (stretch.has(first)) continue;
    const waiting = [first];
    for (let at = waiting.pop(); at !== undefined; at = waiting.pop()) {
      stretch.set(at, first);
      for (const node of [from[at] ?? -1, to[at] ?? -1]) {
        const touching = ends.get(node) ?? [];
        if (touching.length !== 2) continue;
        for (const next of touching) if (plain.has(next) && !stretch.has(next)) waiting.push(next);
      }
    }
  }
  const counts = new Map<string, number>();
  for (const { owner } of list.parts) counts.set(owner, (counts.get(owner) ?? 0) + 1);
  return new Map(
    [...stretch].flatMap(([at, first]): (readonly [string, number])[] => {
      const owner = list.parts[at]?.owner ?? "";
      return counts.get(owner) === 1 ? [[owner, first]] : [];
    }),
  );
}

/** The parts that touch each node; none for nodes whose own voltage matters. */
function endsOf(
  { parts, shape, coils, modules, reference }: PartList,
  measured: Iterable<number>,
): Map<number, number[]> {
  const ends = new Map<number, number[]>();
  parts.forEach(({ present, control }, at) => {
    // What is not there and follows nothing stays away.
    if (!present && control === undefined) return;
    for (const node of [shape.from[at] ?? -1, shape.to[at] ?? -1]) {
      const known = ends.get(node);
      if (known) known.push(at);
      else ends.set(node, [at]);
    }
  });
  const watched = [
    ...measured,
    reference,
    ...coils.flatMap((coil) => [coil.from, coil.to]),
    ...modules.flatMap((need) => [need.positive, need.negative]),
  ];
  for (const node of watched) ends.delete(node);
  return ends;
}

function isPlain(part: Part | undefined): boolean {
  return part?.present === true && part.control === undefined && part.module === undefined && part.volt === 0;
}
