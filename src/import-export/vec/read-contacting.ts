import type {
  SourceCavity,
  SourceConnector,
  SourceFitting,
  ConnectorUse,
  SourceContact,
  SourceMating,
} from "../xml/harness-source.ts";
import { Fittings } from "../xml/mounted-part.ts";
import { idsIn, uniqueNames } from "../xml/source-facts.ts";
import { childrenOf, type XmlElement } from "../xml/xml-element.ts";
import { describedBy, describing, fittedOf, nameOf, partOf, rolesOf, type VecFacts, withHolders } from "./vec-facts.ts";
import { defined } from "../../base/index.ts";
import { importProblem } from "../import-problem.ts";

/**
 * Reads parts with the role of a connector housing, with the key of the connector by the ids of its cavity references and of its role. The
 * housings of components, which face the harness from the other side, are not among them.
 */
export function readHousings(vec: VecFacts) {
  const connectors: SourceConnector[] = [];
  const connectorOfCavity = new Map<string, string>();
  const connectorOfRole = new Map<string, string>();
  const fittings = readFittings(vec);
  for (const occurrence of vec.occurrences) {
    rolesOf(occurrence, /^ConnectorHousingRole$/u).forEach((role, at) => {
      const key = at === 0 ? (occurrence.id ?? "") : `${occurrence.id ?? ""} ${at}`;
      const cavities = readCavities(vec, role, fittings);
      const when = fittedOf(vec, [occurrence]);
      const spot = vec.placeOf.get(occurrence.id ?? "");
      for (const cavity of cavities) connectorOfCavity.set(cavity.key, key);
      if (role.id !== undefined) connectorOfRole.set(role.id, key);
      connectors.push({
        key,
        name: nameOf(vec, at === 0 ? occurrence : role),
        label: describedBy(vec, occurrence),
        use: "plug",
        box: undefined,
        cavities,
        part: at === 0 ? partOf(vec, occurrence) : undefined,
        fitted: when.fitted,
        node: spot?.node,
        at: vec.facts.place(occurrence),
        madeOf: [
          ...[occurrence, occurrence.parent, role, vec.facts.reference(role, "ConnectorHousingSpecification")],
          ...describing(vec, occurrence),
          ...(spot?.node === undefined ? [] : spot.madeOf),
          ...when.madeOf,
        ],
      });
    });
  }
  return { connectors, connectorOfCavity, connectorOfRole };
}

type VecHousings = ReturnType<typeof readHousings>;

/** Cavities of a housing role, by number; the slot comes first where there are several. */
function readCavities(vec: VecFacts, role: XmlElement, fittings: Fittings): readonly SourceCavity[] {
  const { facts } = vec;
  const slots = childrenOf(role, "SlotReference").filter((slot) => childrenOf(slot, "CavityReference").length > 0);
  const cavities = slots.flatMap((slot, at) => {
    const ownSlot = facts.reference(slot, "ReferencedSlot");
    const slotName = facts.text(ownSlot, "SlotNumber") ?? String(at + 1);
    return childrenOf(slot, "CavityReference").flatMap((reference, place) => {
      if (reference.id === undefined) return [];
      const cavity = facts.reference(reference, "ReferencedCavity");
      const number = facts.text(cavity, "CavityNumber") ?? facts.text(reference, "Identification") ?? String(place + 1);
      const name = slots.length > 1 ? `${slotName}.${number}` : number;
      const madeOf = [reference, cavity, slot, ownSlot];
      return [fittings.cavity({ key: reference.id, name, at: facts.place(reference), madeOf })];
    });
  });
  return uniqueNames(cavities);
}

/** Reads terminals, seals and plugs that contact points put into cavities, and plugs that name their cavity themselves. */
function readFittings(vec: VecFacts): Fittings {
  const { facts } = vec;
  const fittings = new Fittings(facts.account);
  const take = (cavity: string, role: XmlElement, what: SourceFitting["what"] | undefined): void => {
    const part = partOf(vec, role.parent);
    const from = [role, role.parent];
    fittings.take(cavity, what, { part: part && { ...part, madeOf: [...from, ...part.madeOf] }, madeOf: from });
  };
  for (const point of vec.listed("ContactingSpecification", "ContactPoint")) {
    const mountings = childrenOf(point, "CavityMounting");
    const wireSeals = childrenOf(point, "WireMounting").flatMap((each) => facts.references(each, "MountedCavitySeal"));
    for (const mounting of mountings) {
      for (const { id } of facts.references(mounting, "EquippedCavityRef")) {
        if (id === undefined) continue;
        for (const terminal of facts.references(point, "MountedTerminal")) take(id, terminal, "terminal");
        for (const role of [...wireSeals, ...facts.references(mounting, "CavityAccessory")])
          take(id, role, sortOf(role));
      }
    }
  }
  for (const role of vec.occurrences.flatMap((occurrence) => rolesOf(occurrence, /CavityPlugRole$/u))) {
    for (const { id } of facts.references(role, "PluggedCavityRef")) if (id !== undefined) take(id, role, "plug");
  }
  return fittings;
}

function sortOf({ type = "" }: XmlElement): SourceFitting["what"] | undefined {
  if (/CavitySealRole$/u.test(type)) return "seal";
  return /CavityPlugRole$/u.test(type) ? "plug" : undefined;
}

/**
 * Reads contact points, and the splices, rings and open ends that are contacted outside any housing. A wire end or cavity that does not
 * exist is an error: the wire would end nowhere.
 */
export function readContacting(vec: VecFacts, housings: VecHousings) {
  const { facts } = vec;
  const contacts: SourceContact[] = [];
  const connectors = new Map<string, SourceConnector>();
  /** Key of the contact point by the id of each wire end mounted in it. */
  const contactOfEnd = new Map<string, string>();
  /** Ids of the cavity references of the contact point a terminal role is mounted in. */
  const cavitiesOfTerminal = new Map<string, readonly string[]>();
  const points = vec.listed("ContactingSpecification", "ContactPoint");
  points.forEach((point, at) => {
    const key = point.id ?? `contact ${at}`;
    const ends = mounted(vec, point, "WireMounting", "ReferencedWireEnd");
    const cavities = mounted(vec, point, "CavityMounting", "EquippedCavityRef");
    for (const end of ends) if (!contactOfEnd.has(end)) contactOfEnd.set(end, key);
    const terminal = facts.reference(point, "MountedTerminal");
    if (terminal?.id !== undefined) cavitiesOfTerminal.set(terminal.id, cavities);
    const mountings = [...childrenOf(point, "WireMounting"), ...childrenOf(point, "CavityMounting")];
    const madeOf = [...withHolders([point]), ...mountings];
    const connector = housings.connectorOfCavity.get(cavities[0] ?? "");
    if (connector !== undefined) {
      const own = cavities.filter((cavity) => housings.connectorOfCavity.get(cavity) === connector);
      contacts.push({ key, connector, cavities: own, madeOf });
    } else if (ends.length > 0) {
      const free = freeContact(vec, point, terminal, ends.length);
      connectors.set(free.key, free);
      contacts.push({ key, connector: free.key, cavities: free.cavities.map((cavity) => cavity.key), madeOf });
    } else facts.account.leaveOut(madeOf, "no wire ends there");
  });
  return { contacts, connectors: [...connectors.values()], contactOfEnd, cavitiesOfTerminal };
}

/** Contact points of a VEC file. */
export type VecContacting = ReturnType<typeof readContacting>;

/** Ids that the mountings of a contact point refer to. */
function mounted(vec: VecFacts, point: XmlElement, of: string, name: string): readonly string[] {
  const { facts } = vec;
  const ids = childrenOf(point, of)
    .flatMap((mounting) => childrenOf(mounting, name))
    .flatMap((each) => idsIn(each.text));
  for (const id of ids) {
    if (facts.document.ids.has(id)) continue;
    const told = { wire: `at contact point ${nameOf(vec, point).slice(0, 80)}`, id: id.slice(0, 80) };
    facts.report(importProblem("source-end-unknown", facts.place(point), told));
  }
  return ids.filter((id) => facts.document.ids.has(id));
}

/** A contact point outside any housing: what it is depends on its terminal, and without one on how many wires meet. */
function freeContact(
  vec: VecFacts,
  point: XmlElement,
  terminal: XmlElement | undefined,
  ends: number,
): SourceConnector {
  const { facts, placeOf } = vec;
  const occurrence = terminal?.parent;
  const item = occurrence ?? point;
  const key = `free ${item.id ?? point.id ?? ""}`;
  const use = useOf(terminal?.type, ends);
  const spot = placeOf.get(item.id ?? "");
  const when = fittedOf(vec, [point, occurrence]);
  const at = facts.place(item);
  return {
    key,
    name: nameOf(vec, item),
    label: describedBy(vec, occurrence),
    use,
    box: undefined,
    cavities: use === "open-end" ? [{ key: `${key} 1`, name: "1", sealed: false, fitted: [], at, madeOf: [] }] : [],
    part: partOf(vec, occurrence),
    fitted: when.fitted,
    node: spot?.node,
    ...defined({ spot: spot?.along }),
    at,
    madeOf: [occurrence, terminal, ...describing(vec, occurrence), ...(spot?.madeOf ?? []), ...when.madeOf],
  };
}

function useOf(terminal: string | undefined, ends: number): ConnectorUse {
  if (terminal === "SpliceTerminalRole") return "splice";
  if (terminal !== undefined && /^(?:Ring|Bolt|Hole)TerminalRole$/u.test(terminal)) return "ring";
  return ends > 1 ? "splice" : "open-end";
}

/** One side of a point that mates: a cavity of the harness, or a pin of a component. */
type MatingSide =
  | { readonly kind: "cavity"; readonly cavity: string; readonly connector: string }
  | { readonly kind: "pin"; readonly pin: XmlElement; readonly housing: XmlElement };

/** Reads coupling points: mated connectors, components plugged onto connectors, and parts plugged into components. */
export function readMatings(vec: VecFacts, housings: VecHousings, contacting: VecContacting) {
  /** Connector to connector inside the harness. */
  const matings: SourceMating[] = [];
  /** Cavity by the id of the component pin in it. */
  const cavityOfPin = new Map<string, string>();
  /** Key of the harness connector by the id of the component housing it is plugged on. */
  const connectorOfHousing = new Map<string, string>();
  /** The pin of another component by the id of the pin in it, for parts plugged into components. */
  const pinOfPin = new Map<string, XmlElement>();
  const known = { vec, housings, contacting };
  const points = vec.listed("CouplingSpecification", "CouplingPoint");
  for (const point of points) {
    const between = new Map<string, { connectors: [string, string]; cavities: [string, string][] }>();
    let isOfComponent = false;
    const [one, two] = ["FirstConnector", "SecondConnector"].map((name) => connectorSide(known, point, name));
    if (one?.connector !== undefined && two?.connector !== undefined)
      between.set(`${one.connector} ${two.connector}`, { connectors: [one.connector, two.connector], cavities: [] });
    for (const [harness, device] of [[one, two] as const, [two, one] as const]) {
      if (harness?.connector === undefined || device?.housing?.id === undefined) continue;
      isOfComponent = true;
      connectorOfHousing.set(device.housing.id, harness.connector);
    }
    for (const [first, second] of pairsOf(known, point)) {
      if (first.kind === "cavity" && second.kind === "cavity") {
        const key = `${first.connector} ${second.connector}`;
        const mating = between.get(key) ?? { connectors: [first.connector, second.connector], cavities: [] };
        mating.cavities.push([first.cavity, second.cavity]);
        between.set(key, mating);
      } else if (first.kind === "pin" && second.kind === "pin") {
        if (first.pin.id !== undefined) pinOfPin.set(first.pin.id, second.pin);
        if (second.pin.id !== undefined) pinOfPin.set(second.pin.id, first.pin);
        isOfComponent = true;
      } else {
        const [cavity, pin] = first.kind === "cavity" ? [first, second] : [second, first];
        if (cavity.kind !== "cavity" || pin.kind !== "pin" || pin.pin.id === undefined) continue;
        cavityOfPin.set(pin.pin.id, cavity.cavity);
        isOfComponent = true;
        if (pin.housing.id !== undefined) connectorOfHousing.set(pin.housing.id, cavity.connector);
      }
    }
    const slots = childrenOf(point, "SlotCoupling");
    const inner = [
      ...childrenOf(point, "MatingPoint"),
      ...slots,
      ...slots.flatMap((slot) => childrenOf(slot, "CavityCoupling")),
    ];
    const madeOf = [...withHolders([point]), ...inner];
    matings.push(...[...between.values()].map((mating) => ({ ...mating, at: vec.facts.place(point), madeOf })));
    if (between.size > 0) continue;
    if (isOfComponent) vec.facts.account.keep(madeOf, "mating of a component");
    else vec.facts.account.leaveOut(madeOf, "what it joins is not there");
  }
  return { matings, cavityOfPin, connectorOfHousing, pinOfPin };
}

/** What a VEC file says of what plugs into what. */
export type VecCouplings = ReturnType<typeof readMatings>;

interface Known {
  readonly vec: VecFacts;
  readonly housings: VecHousings;
  readonly contacting: VecContacting;
}

function connectorSide({ vec, housings }: Known, point: XmlElement, name: string) {
  const role = vec.facts.reference(point, name);
  const housing = role?.parent?.name === "HousingComponentRef" ? role.parent : undefined;
  return role && { connector: housings.connectorOfRole.get(role.id ?? ""), housing };
}

/** Pairs of sides that mate: by terminals, then by cavities. */
function pairsOf(known: Known, point: XmlElement): readonly (readonly [MatingSide, MatingSide])[] {
  const { facts } = known.vec;
  const pairs: (readonly [MatingSide, MatingSide])[] = [];
  const take = (sideOf: typeof cavitySide, mating: XmlElement, what: string): void => {
    const [first, second] = ["First", "Second"].map((each) => sideOf(known, facts.reference(mating, each + what)));
    if (first && second) pairs.push([first, second]);
  };
  for (const mating of childrenOf(point, "MatingPoint")) take(terminalSide, mating, "TerminalRole");
  for (const slot of childrenOf(point, "SlotCoupling"))
    for (const coupling of childrenOf(slot, "CavityCoupling")) take(cavitySide, coupling, "Cavity");
  return pairs;
}

function terminalSide({ housings, contacting }: Known, terminal: XmlElement | undefined): MatingSide | undefined {
  const pin = terminal?.parent;
  if (pin?.name === "PinComponentRef" && pin.parent) return { kind: "pin", pin, housing: pin.parent };
  const cavity = contacting.cavitiesOfTerminal.get(terminal?.id ?? "")?.[0];
  const connector = housings.connectorOfCavity.get(cavity ?? "");
  return cavity === undefined || connector === undefined ? undefined : { kind: "cavity", cavity, connector };
}

function cavitySide({ vec, housings }: Known, reference: XmlElement | undefined): MatingSide | undefined {
  const { facts } = vec;
  const id = reference?.id ?? "";
  const connector = housings.connectorOfCavity.get(id);
  if (connector !== undefined) return { kind: "cavity", cavity: id, connector };
  // Housing role, slot, cavity: the component's own face.
  const housing = reference?.parent?.parent?.parent;
  const cavity = facts.reference(reference, "ReferencedCavity");
  if (housing?.name !== "HousingComponentRef" || !cavity) return undefined;
  const pin = childrenOf(housing, "PinComponentRef").find(
    (each) => facts.reference(facts.reference(each, "PinComponent"), "ReferencedCavity") === cavity,
  );
  return pin && { kind: "pin", pin, housing };
}
