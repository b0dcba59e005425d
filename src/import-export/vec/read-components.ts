import { importProblem } from "../import-problem.ts";
import type { Origins } from "../xml/source-facts.ts";
import type { SourceBox, SourceConnector, SourceElement, SourceTerminal } from "../xml/harness-source.ts";
import { barsBetween, elementsOfPart, type MountedPart } from "../xml/mounted-part.ts";
import { childOf, childrenOf, type XmlElement } from "../xml/xml-element.ts";
import type { VecCouplings } from "./read-contacting.ts";
import { describedBy, describing, fittedOf, nameOf, partOf, type VecFacts } from "./vec-facts.ts";

/** A part with an electric role. */
interface Device {
  readonly occurrence: XmlElement;
  readonly role: XmlElement;
  readonly specification: XmlElement | undefined;
  readonly housings: readonly XmlElement[];
}

/**
 * Reads parts with the role of an electric component, fuse or relay, with their insides as far as the file gives them. A part plugged into
 * another component belongs to its inside.
 *
 * @param connectors Connectors of the harness; they come back with the key of the component that is plugged onto them.
 */
export function readComponents(vec: VecFacts, couplings: VecCouplings, connectors: readonly SourceConnector[]) {
  const devices = vec.occurrences.flatMap((occurrence) => deviceOf(vec, occurrence));
  const carriers = new Map(devices.map((device) => [device.occurrence, carrierOf(device, couplings)]));
  const boxOfConnector = new Map<string, string>();
  const boxes = devices
    .filter((device) => !carriers.get(device.occurrence))
    .map((device): SourceBox => {
      const key = device.occurrence.id ?? "";
      for (const housing of device.housings) {
        const connector = couplings.connectorOfHousing.get(housing.id ?? "");
        if (connector !== undefined) boxOfConnector.set(connector, key);
      }
      const when = fittedOf(vec, [device.occurrence]);
      const mounted = devices.filter((each) => carriers.get(each.occurrence) === device.occurrence);
      return {
        key,
        name: nameOf(vec, device.occurrence),
        label: describedBy(vec, device.occurrence),
        kind: kindOf(device),
        part: partOf(vec, device.occurrence),
        elements: [device, ...mounted].flatMap((each) => elementsOf(vec, each, couplings)),
        fitted: when.fitted,
        note: undefined,
        at: vec.facts.place(device.occurrence),
        madeOf: [...originsOf(vec, device), ...when.madeOf],
      };
    });
  return { boxes, connectors: connectors.map((each) => ({ ...each, box: boxOfConnector.get(each.key) ?? each.box })) };
}

function deviceOf({ facts }: VecFacts, occurrence: XmlElement): Device[] {
  const role = childrenOf(occurrence, "Role").find((each) => childOf(each, "EEComponentSpecification"));
  if (!role) return [];
  const specification = facts.reference(role, "EEComponentSpecification");
  return [{ occurrence, role, specification, housings: childrenOf(role, "HousingComponentRef") }];
}

/** What describes a part with an electric role: its occurrence and role, and the faces and pins of it. */
function originsOf(vec: VecFacts, { occurrence, role, specification, housings }: Device): Origins {
  const { facts } = vec;
  const pins = pinsOf(housings);
  return [
    ...[occurrence, role, specification, ...housings, ...pins, ...describing(vec, occurrence)],
    ...housings.map((housing) => facts.reference(housing, "HousingComponent")),
    ...pins.map((pin) => facts.reference(pin, "PinComponent")),
  ];
}

function pinsOf(housings: readonly XmlElement[]): readonly XmlElement[] {
  return housings.flatMap((housing) => childrenOf(housing, "PinComponentRef"));
}

/** The component that a fuse or relay is plugged into. */
function carrierOf(device: Device, { pinOfPin }: VecCouplings): XmlElement | undefined {
  if (!/^(?:Fuse|Relay)Role$/u.test(device.role.type ?? "")) return undefined;
  for (const pin of pinsOf(device.housings)) {
    const occurrence = pinOfPin.get(pin.id ?? "")?.parent?.parent?.parent;
    if (occurrence && occurrence !== device.occurrence) return occurrence;
  }
  return undefined;
}

function kindOf({ role, specification }: Device): SourceBox["kind"] {
  const type = role.type ?? "";
  if (type === "RelayRole") return "relay";
  if (type === "BatteryRole") return "battery";
  const isCarrier = /^(?:Fuse|MultiFuse|PotentialDistributor)Role$/u.test(type);
  return isCarrier || childrenOf(specification, "Connections").length > 0 ? "distribution" : "other";
}

function elementsOf(vec: VecFacts, device: Device, couplings: VecCouplings): readonly SourceElement[] {
  const { facts } = vec;
  const pins = pinsOf(device.housings);
  const current = childOf(device.specification, "IMax");
  const when = fittedOf(vec, [device.occurrence]);
  const part: MountedPart = {
    name: nameOf(vec, device.occurrence),
    label: describedBy(vec, device.occurrence) ?? "",
    kind: device.role.type === "FuseRole" ? "fuse" : device.role.type === "RelayRole" ? "relay" : "other",
    ratedAmpere: facts.quantity(current, "current"),
    part: partOf(vec, device.occurrence),
    text: "",
    pins: pins.map((pin) => ({
      number: nameOf(vec, facts.reference(pin, "PinComponent")),
      terminal: terminalOf(vec, pin, couplings),
    })),
    fitted: when.fitted,
    at: facts.place(device.occurrence),
    madeOf: [...originsOf(vec, device), ...facts.behind(current), ...when.madeOf],
  };
  return part.kind === "other" ? innerConnections(vec, device, couplings) : elementsOfPart(facts, part);
}

/** Where a pin leads: into the cavity it is plugged in, to the pin of the component it is plugged into, or to a point inside. */
function terminalOf(vec: VecFacts, pin: XmlElement, couplings: VecCouplings): SourceTerminal {
  const cavity = couplings.cavityOfPin.get(pin.id ?? "") ?? sameNumber(vec, pin, couplings);
  if (cavity !== undefined) return { cavity };
  const other = couplings.pinOfPin.get(pin.id ?? "");
  const isCarried = other !== undefined && /^(?:Fuse|Relay)Role$/u.test(pin.parent?.parent?.type ?? "");
  const point = isCarried ? other : pin;
  const housing = nameOf(vec, vec.facts.reference(point.parent, "HousingComponent"));
  return { inner: `${housing}.${nameOf(vec, vec.facts.reference(point, "PinComponent"))}` };
}

/** Where a file says which connector a housing is plugged onto and no more, pins meet the cavities of their own number. */
function sameNumber({ facts }: VecFacts, pin: XmlElement, couplings: VecCouplings): string | undefined {
  const connector = couplings.connectorOfHousing.get(pin.parent?.id ?? "");
  if (connector === undefined) return undefined;
  const component = facts.reference(pin, "PinComponent");
  const cavity = facts.reference(component, "ReferencedCavity");
  const number = facts.text(cavity, "CavityNumber") ?? facts.text(component, "Identification");
  const occurrence = facts.document.ids.get(connector);
  for (const role of childrenOf(occurrence, "Role")) {
    for (const reference of childrenOf(role, "SlotReference").flatMap((slot) => childrenOf(slot, "CavityReference"))) {
      if (facts.text(facts.reference(reference, "ReferencedCavity"), "CavityNumber") === number) return reference.id;
    }
  }
  return undefined;
}

/** Connections inside a component join all pins they name, unless they are there in some switching state only. */
function innerConnections(vec: VecFacts, device: Device, couplings: VecCouplings): readonly SourceElement[] {
  const { facts } = vec;
  const pinOf = new Map<XmlElement | undefined, XmlElement>();
  for (const pin of pinsOf(device.housings)) {
    pinOf.set(facts.reference(pin, "PinComponent"), pin);
  }
  const switched = new Set(
    childrenOf(device.specification, "States").flatMap((state) => facts.references(state, "SwitchedConnections")),
  );
  if (switched.size > 0) {
    const what = `${switched.size} of its connections are switched`;
    const told = { part: nameOf(vec, device.occurrence).slice(0, 80), what };
    facts.report(importProblem("part-inside-unknown", facts.place(device.occurrence), told));
    facts.account.leaveOut([...switched], "a switching state switches it");
  }
  return childrenOf(device.specification, "Connections").flatMap((connection) => {
    if (switched.has(connection)) return [];
    const pins = facts.references(connection, "Pins").map((pin) => pinOf.get(pin));
    const terminals = pins.filter((pin) => pin !== undefined).map((pin) => terminalOf(vec, pin, couplings));
    return barsBetween(facts, nameOf(vec, connection), terminals, { madeOf: [connection] });
  });
}
