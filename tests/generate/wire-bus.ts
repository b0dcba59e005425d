import type { HarnessDraft, WireEnd } from "./harness-draft.ts";
import type { BusEnd } from "./lay-machine.ts";

const HALVES = [
  { id: "harness", contacts: "sockets" as const },
  { id: "device", contacts: "pins" as const },
];

/** Wires the data bus: two lines along all modules, a splice of each at every module, a terminator at both ends. */
export function wireBus(draft: HarnessDraft, ends: readonly BusEnd[]): void {
  const [first, last] = [ends[0], ends.at(-1)];
  if (!first || !last || first === last) return;
  const terminators = [layTerminator(draft, first), layTerminator(draft, last)];
  for (const line of ["high", "low"] as const) {
    const colour = line === "high" ? "YE" : "GN";
    const kind = { net: `bus ${line}`, kind: "data-bus" as const, colour, crossSectionMm2: 0.5 };
    const splices = ends.map((end) => draft.splice(end.place));
    splices.forEach((splice, at) => {
      const tap = ends[at]?.[line];
      const before = splices[at - 1];
      if (tap) draft.wire(tap, splice, kind);
      if (before) draft.wire(before, splice, kind);
    });
    for (const [splice, terminator] of [
      [splices[0], terminators[0]],
      [splices.at(-1), terminators[1]],
    ] as const) {
      if (splice && terminator) draft.wire(splice, terminator[line], kind);
    }
  }
}

function layTerminator(draft: HarnessDraft, { place: beside }: BusEnd): Record<"high" | "low", WireEnd> {
  const id = draft.nextId("RT");
  const { x, y, zone } = draft.tree.record(beside);
  const place = draft.tree.add(`N-${id}`, { x: x + 30, y: y - 30, zone }, { parent: beside, lengthMm: 100 });
  draft.components.push({
    id,
    label: `Bus terminator ${id}`,
    kind: "terminator",
    zone,
    elements: [{ id: "r", kind: "resistor", between: [`${id}.X1:1`, `${id}.X1:2`], resistanceOhm: 120 }],
  });
  draft.connector(`${id}.X1`, place, {
    kind: "terminator",
    component: id,
    label: `Terminator ${id}, connector`,
    sides: HALVES,
    size: 2,
  });
  const end = (cavity: number): WireEnd => ({ address: `${id}.X1:${cavity}`, spot: { kind: "place", place } });
  return { high: end(1), low: end(2) };
}
