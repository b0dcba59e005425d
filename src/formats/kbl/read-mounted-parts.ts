import { importProblem } from "../import-problem.ts";
import type { MountedPart } from "../xml/source/mounted-part.ts";
import { childOf, childrenOf, type XmlElement } from "../xml/xml-element.ts";
import { fittedOf, innerName, partOf, type KblFacts } from "./kbl-facts.ts";
import { labelOf } from "./read-connectors.ts";

/** Reads fuses, relays and other parts that are mounted in boxes, by the id of the box. */
export function readMountedParts(kbl: KblFacts): ReadonlyMap<string, readonly MountedPart[]> {
  const { facts, harnesses } = kbl;
  const mounted = new Map<string, MountedPart[]>();
  for (const occurrence of harnesses.flatMap((harness) => childrenOf(harness, "Component_occurrence"))) {
    const places = facts.references(occurrence, "Mounting");
    const slot = places.map((place) => slotAround(place)).find((found) => found !== undefined);
    const box = slot?.parent;
    const name = facts.text(occurrence, "Id") ?? occurrence.id ?? "";
    if (!slot || box?.id === undefined) {
      const what = places.length === 0 ? "it is mounted nowhere" : "it is mounted in a connector, which is not read";
      facts.report(importProblem("part-inside-unknown", facts.place(occurrence), { part: name.slice(0, 80), what }));
      facts.account.leaveOut([occurrence, facts.reference(occurrence, "Part")], what);
      continue;
    }
    const list = mounted.get(box.id) ?? [];
    list.push(mountedPart(kbl, occurrence, slot));
    mounted.set(box.id, list);
  }
  return mounted;
}

/** The slot of a box that a place of mounting is or lies in. */
function slotAround(place: XmlElement): XmlElement | undefined {
  let current: XmlElement | undefined = place;
  while (current && current.parent?.name !== "Component_box_occurrence") current = current.parent;
  return current?.name === "Component_slots" ? current : undefined;
}

function mountedPart(kbl: KblFacts, occurrence: XmlElement, slot: XmlElement): MountedPart {
  const { facts } = kbl;
  const part = facts.reference(occurrence, "Part");
  const slotPart = facts.reference(slot, "Part");
  const fuseType = childOf(slotPart, "Valid_fuse_types");
  const slotType = facts.text(fuseType, "Key") ?? facts.text(slotPart, "Type") ?? "";
  const current = childOf(part, "Nominal_current");
  const when = fittedOf(kbl, [occurrence]);
  const description = [labelOf(facts, part), facts.text(part, "Abbreviation")]
    .filter((text) => text !== undefined)
    .join(" ");
  // What the part is counts before what would fit the slot.
  const kinds = [part?.type ?? "", description, slotType];
  const told = kinds.find((text) => /fuse|sicherung|relay|relais/iu.test(text)) ?? "";
  const held = childrenOf(slot, "Component_cavities");
  const cavities = held.flatMap((cavity) => {
    const target = facts.reference(cavity, "Part");
    return target ? [target] : [];
  });
  const pins = childrenOf(occurrence, "Component_pin_maps").flatMap((map) => {
    const pin = facts.text(map, "Component_pin_number");
    const number = facts.text(map, "Cavity_number");
    return pin === undefined || number === undefined ? [] : [[number, pin] as const];
  });
  const named = new Map(pins);
  return {
    name: facts.text(occurrence, "Id") ?? occurrence.id ?? "",
    label: [labelOf(facts, occurrence), labelOf(facts, part)].filter((text) => text !== undefined).join(", "),
    kind: /fuse|sicherung/iu.test(told) ? "fuse" : told === "" ? (cavities.length === 2 ? "fuse" : "other") : "relay",
    ratedAmpere: facts.quantity(current, "current"),
    part: partOf(kbl, part),
    text: description,
    pins: cavities.map((cavity) => {
      const number = facts.text(cavity, "Cavity_number") ?? "";
      return { number: named.get(number) ?? number, terminal: { inner: innerName(kbl, cavity) } };
    }),
    fitted: when.fitted,
    at: facts.place(occurrence),
    madeOf: [
      ...[occurrence, slot, slotPart, ...held, ...cavities, ...childrenOf(occurrence, "Component_pin_maps")],
      // The type of fuse that fits the slot says what the part is where nothing else does.
      ...(told !== "" && told === slotType ? [fuseType] : []),
      ...facts.behind(current),
      ...when.madeOf,
    ],
  };
}
