import type {
  SourceBox,
  SourceConnector,
  SourceElement,
  SourceTerminal,
  HarnessSource,
  SourceCavity,
  SourceMating,
} from "../xml/harness-source.ts";
import { childrenOf, type XmlElement, childOf } from "../xml/xml-element.ts";
import { barsBetween, elementsOfPart, type MountedPart } from "../xml/mounted-part.ts";
import { fittedOf, innerName, partOf, targetOf, type KblFacts } from "./kbl-facts.ts";
import { labelOf, readCavities, readContacts, readFittings } from "./read-connectors.ts";
import { importProblem } from "../import-problem.ts";
import { uniqueNames } from "../xml/source-facts.ts";

/** Reads component boxes, fuse and relay carriers, with their connectors, inner connections, and what is mounted in them. */
export function readBoxes(kbl: KblFacts) {
  const elements = kbl.harnesses
    .flatMap((harness) => childrenOf(harness, "Component_box_occurrence"))
    .filter((box) => box.id !== undefined);
  const mounted = readMountedParts(kbl);
  const connectors = elements.map((box) => boxConnectors(kbl, box));
  return {
    owners: elements.flatMap((box) =>
      childrenOf(box, "Component_box_connectors").map((element, at) => ({ key: keyOf(box, element, at), element })),
    ),
    boxes: elements.map((box, at) => readBox(kbl, box, connectors[at] ?? [], mounted.get(box.id ?? "") ?? [])),
    connectors: connectors.flat(),
    contacts: elements.flatMap((box, at) => {
      const ownerOf = new Map<string, string>();
      for (const connector of connectors[at] ?? []) {
        for (const cavity of connector.cavities) ownerOf.set(cavity.key, connector.key);
      }
      return readContacts(box, (cavity) => ownerOf.get(cavity) ?? "");
    }),
  };
}

/** In 2.3 and 2.4 the occurrence may go without an id of its own kind; its place in the box tells it apart. */
function keyOf(box: XmlElement, connector: XmlElement, at: number): string {
  return connector.id ?? `${box.id ?? ""} ${at}`;
}

function boxConnectors(kbl: KblFacts, box: XmlElement): SourceConnector[] {
  const { facts, nodeOf } = kbl;
  const boxName = facts.text(box, "Id") ?? box.id ?? "";
  return childrenOf(box, "Component_box_connectors").flatMap((connector, at) => {
    const key = keyOf(box, connector, at);
    const part = facts.reference(connector, "Part");
    const own = facts.text(part, "Id") ?? String(at + 1);
    const slots = childrenOf(connector, "Slots");
    const cavities = readCavities(kbl, slots, readFittings(kbl, box, slots));
    const when = fittedOf(kbl, [box]);
    const names = [connector.id, box.id, ...cavities.map((cavity) => cavity.key)];
    return [
      {
        key,
        name: `${boxName}.${own}`,
        label: labelOf(facts, box),
        use: "plug" as const,
        box: box.id,
        cavities,
        part: undefined,
        fitted: when.fitted,
        node: names.map((id) => nodeOf.get(id ?? "")).find((id) => id !== undefined),
        at: facts.place(connector),
        madeOf: [connector, part, ...when.madeOf],
      },
    ];
  });
}

function readBox(
  kbl: KblFacts,
  box: XmlElement,
  connectors: readonly SourceConnector[],
  parts: readonly MountedPart[],
): SourceBox {
  const { facts } = kbl;
  facts.account.leaveOut(childrenOf(box, "Component_slots"), "nothing that is read is mounted in it");
  const bars = innerConnections(kbl, box, connectors);
  const when = fittedOf(kbl, [box]);
  return {
    key: box.id ?? "",
    name: facts.text(box, "Id") ?? box.id ?? "",
    label: labelOf(facts, box),
    kind: "distribution",
    part: partOf(kbl, facts.reference(box, "Part")),
    elements: [...bars, ...parts.flatMap((part) => elementsOfPart(facts, part))],
    fitted: when.fitted,
    note: undefined,
    at: facts.place(box),
    madeOf: [box, ...when.madeOf],
  };
}

/** Connections inside the box: each joins everything it names, as one piece of metal. */
function innerConnections(kbl: KblFacts, box: XmlElement, connectors: readonly SourceConnector[]): SourceElement[] {
  const { facts } = kbl;
  const part = targetOf(kbl, box, "Part", ["Component_box"]);
  const outer = new Map<string, string>();
  for (const connector of connectors) {
    for (const cavity of connector.cavities) {
      const of = facts.reference(facts.document.ids.get(cavity.key), "Part")?.id;
      if (of !== undefined) outer.set(of, cavity.key);
    }
  }
  return childrenOf(part, "Connections").flatMap((connection, at) => {
    const inside = facts.references(connection, "Component_cavities");
    const terminals: SourceTerminal[] = facts.references(connection, "Cavities").flatMap(({ id = "" }) => {
      const cavity = outer.get(id);
      return cavity === undefined ? [] : [{ cavity }];
    });
    terminals.push(...inside.map((cavity) => ({ inner: innerName(kbl, cavity) })));
    const madeOf = [connection, ...inside];
    const name = facts.text(connection, "Id") ?? String(at + 1);
    return barsBetween(facts, name, terminals, { madeOf, around: madeOf.map((each) => each.parent) });
  });
}

/** Reads fuses, relays and other parts that are mounted in boxes, by the id of the box. */
function readMountedParts(kbl: KblFacts): ReadonlyMap<string, readonly MountedPart[]> {
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
    mounted.set(box.id, [...(mounted.get(box.id) ?? []), mountedPart(kbl, occurrence, slot)]);
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
  const maps = childrenOf(occurrence, "Component_pin_maps");
  const named = new Map(
    maps.flatMap((map) => {
      const pin = facts.text(map, "Component_pin_number");
      return pin === undefined ? [] : [[facts.text(map, "Cavity_number"), pin] as const];
    }),
  );
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
      ...[occurrence, slot, slotPart, ...held, ...cavities, ...maps],
      // The type of fuse that fits the slot says what the part is where nothing else does.
      ...(told !== "" && told === slotType ? [fuseType] : []),
      ...facts.behind(current),
      ...when.madeOf,
    ],
  };
}

type Parts = Pick<HarnessSource, "boxes" | "connectors" | "contacts" | "wires" | "matings">;

/**
 * Plugs connectors of the harness into the boxes they are said to mate with: the connector becomes the face of the box, and what is inside
 * the box ends at its cavities. A mating that cannot be so stays in the list, to be refused with its reason.
 */
export function plugIntoBoxes({ facts }: KblFacts, parts: Parts): Parts {
  const connectors = new Map(parts.connectors.map((each) => [each.key, each]));
  const plugsOf = new Map<string, { plug: string; pairs: readonly (readonly [box: string, plug: string])[] }[]>();
  const plugged = new Set<string>();
  const taken = new Set<string>();
  const wired = new Set(parts.wires.flatMap((wire) => wire.ends.map((end) => end.contact)));
  const owners = new Set(parts.contacts.flatMap(({ key, connector }) => (wired.has(key) ? [connector] : [])));
  const matings = parts.matings.filter((mating) => {
    const found = boxMating(mating, connectors);
    if (!found || owners.has(found.box) || plugged.has(found.plug) || found.pairs.some(([from]) => taken.has(from)))
      return true;
    plugged.add(found.plug);
    for (const [from] of found.pairs) taken.add(from);
    plugsOf.set(found.box, [...(plugsOf.get(found.box) ?? []), found]);
    return false;
  });
  const moved = new Map<string, string>();
  for (const [key, plugs] of plugsOf) {
    const face = connectors.get(key);
    if (!face) continue;
    for (const { pairs } of plugs) for (const [from, to] of pairs) moved.set(from, to);
    const left = face.cavities.filter((cavity) => !moved.has(cavity.key));
    plugs.forEach(({ plug: plugKey, pairs }) => {
      const plug = connectors.get(plugKey);
      if (!plug) return;
      const met = new Map(pairs.map(([from, to]) => [to, face.cavities.find((cavity) => cavity.key === from)]));
      const cavities = plug.cavities.map((cavity) => joined(cavity, met.get(cavity.key)));
      const more = plugs.length === 1 ? left : [];
      const madeOf = [...plug.madeOf, ...face.madeOf];
      connectors.set(plugKey, { ...plug, box: face.box, cavities: uniqueNames([...cavities, ...more]), madeOf });
    });
    for (const { fitted } of face.cavities)
      for (const each of fitted) facts.account.leaveOut(each.madeOf, "in a cavity of a box that no wire ends in");
    if (plugs.length === 1 || left.length === 0) connectors.delete(key);
    else connectors.set(key, { ...face, cavities: left });
  }
  const terminal = (end: SourceTerminal): SourceTerminal =>
    "cavity" in end ? { cavity: moved.get(end.cavity) ?? end.cavity } : end;
  const element = (each: SourceElement): SourceElement => {
    const [first, second] = each.between;
    return { ...each, between: [terminal(first), terminal(second)] };
  };
  return {
    ...parts,
    boxes: parts.boxes.map((box) => ({ ...box, elements: box.elements.map(element) })),
    connectors: [...connectors.values()],
    matings,
  };
}

/** The sides of a mating of a plug with a connector of a box; undefined for any other. */
function boxMating({ connectors: keys, cavities }: SourceMating, connectors: ReadonlyMap<string, SourceConnector>) {
  const [first, second] = keys.map((key) => connectors.get(key));
  if (!first || !second || (first.box === undefined) === (second.box === undefined)) return undefined;
  const [face, plug] = first.box === undefined ? [second, first] : [first, second];
  if (plug.use !== "plug") return undefined;
  const named = cavities.map(([one, two]) => (face === first ? ([one, two] as const) : ([two, one] as const)));
  const alike = face.cavities.flatMap(({ key, name }) => {
    const other = plug.cavities.find((cavity) => cavity.name === name);
    return other ? [[key, other.key] as const] : [];
  });
  return { box: face.key, plug: plug.key, pairs: named.length > 0 ? named : alike };
}

function joined(cavity: SourceCavity, met: SourceCavity | undefined): SourceCavity {
  return met ? { ...cavity, sealed: cavity.sealed || met.sealed, madeOf: [...cavity.madeOf, ...met.madeOf] } : cavity;
}
