import type { SourceMating } from "../xml/source/harness-source.ts";
import { childrenOf, type XmlElement } from "../xml/xml-element.ts";
import type { VecContacting } from "./read-contacting.ts";
import type { VecHousings } from "./read-housings.ts";
import { withHolders, type VecFacts } from "./vec-facts.ts";

/** One side of a point that mates: a cavity of the harness, or a pin of a component. */
export type MatingSide =
  | { readonly kind: "cavity"; readonly cavity: string; readonly connector: string }
  | { readonly kind: "pin"; readonly pin: XmlElement; readonly housing: XmlElement };

/** What a VEC file says of what plugs into what. */
export interface VecCouplings {
  /** Connector to connector inside the harness. */
  readonly matings: readonly SourceMating[];
  /** Cavity by the id of the component pin in it. */
  readonly cavityOfPin: ReadonlyMap<string, string>;
  /** Key of the harness connector by the id of the component housing it is plugged on. */
  readonly connectorOfHousing: ReadonlyMap<string, string>;
  /** The pin of another component by the id of the pin in it, for parts plugged into components. */
  readonly pinOfPin: ReadonlyMap<string, XmlElement>;
}

/** Reads coupling points: mated connectors, components plugged onto connectors, and parts plugged into components. */
export function readMatings(vec: VecFacts, housings: VecHousings, contacting: VecContacting): VecCouplings {
  const matings: SourceMating[] = [];
  const cavityOfPin = new Map<string, string>();
  const connectorOfHousing = new Map<string, string>();
  const pinOfPin = new Map<string, XmlElement>();
  const known = { vec, housings, contacting };
  const points = (vec.specifications.get("CouplingSpecification") ?? []).flatMap((each) =>
    childrenOf(each, "CouplingPoint"),
  );
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
  const take = (first: MatingSide | undefined, second: MatingSide | undefined): void => {
    if (first && second) pairs.push([first, second]);
  };
  for (const mating of childrenOf(point, "MatingPoint")) {
    take(
      terminalSide(known, facts.reference(mating, "FirstTerminalRole")),
      terminalSide(known, facts.reference(mating, "SecondTerminalRole")),
    );
  }
  for (const coupling of childrenOf(point, "SlotCoupling").flatMap((slot) => childrenOf(slot, "CavityCoupling"))) {
    take(
      cavitySide(known, facts.reference(coupling, "FirstCavity")),
      cavitySide(known, facts.reference(coupling, "SecondCavity")),
    );
  }
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
