import { importProblem } from "../import-problem.ts";
import { idsIn } from "../xml/source/check-references.ts";
import type { ConnectorUse, SourceConnector, SourceContact } from "../xml/source/harness-source.ts";
import { childrenOf, type XmlElement } from "../xml/xml-element.ts";
import type { VecHousings } from "./read-housings.ts";
import { describedBy, describing, fittedOf, nameOf, partOf, withHolders, type VecFacts } from "./vec-facts.ts";

/** Contact points of a VEC file, and the splices, rings and open ends that are contacted outside any housing. */
export interface VecContacting {
  readonly contacts: readonly SourceContact[];
  readonly connectors: readonly SourceConnector[];
  /** Key of the contact point by the id of each wire end mounted in it. */
  readonly contactOfEnd: ReadonlyMap<string, string>;
  /** Ids of the cavity references of the contact point a terminal role is mounted in. */
  readonly cavitiesOfTerminal: ReadonlyMap<string, readonly string[]>;
}

/** Reads contact points. A wire end or cavity that does not exist is an error: the wire would end nowhere. */
export function readContacting(vec: VecFacts, housings: VecHousings): VecContacting {
  const { facts, specifications } = vec;
  const contacts: SourceContact[] = [];
  const connectors = new Map<string, SourceConnector>();
  const contactOfEnd = new Map<string, string>();
  const cavitiesOfTerminal = new Map<string, readonly string[]>();
  const points = (specifications.get("ContactingSpecification") ?? []).flatMap((each) =>
    childrenOf(each, "ContactPoint"),
  );
  points.forEach((point, at) => {
    const key = point.id ?? `contact ${at}`;
    const ends = mounted(vec, point, { of: "WireMounting", name: "ReferencedWireEnd" });
    const cavities = mounted(vec, point, { of: "CavityMounting", name: "EquippedCavityRef" });
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
      const free = freeContact(vec, point, { terminal, ends: ends.length });
      connectors.set(free.key, free);
      contacts.push({ key, connector: free.key, cavities: free.cavities.map((cavity) => cavity.key), madeOf });
    } else facts.account.leaveOut(madeOf, "no wire ends there");
  });
  return { contacts, connectors: [...connectors.values()], contactOfEnd, cavitiesOfTerminal };
}

/** Ids that the mountings of a contact point refer to. */
function mounted(
  vec: VecFacts,
  point: XmlElement,
  { of, name }: { readonly of: string; readonly name: string },
): readonly string[] {
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
  { terminal, ends }: { readonly terminal: XmlElement | undefined; readonly ends: number },
): SourceConnector {
  const { facts, placeOf } = vec;
  const occurrence = terminal?.parent;
  const thing = occurrence ?? point;
  const key = `free ${thing.id ?? point.id ?? ""}`;
  const use = useOf(terminal?.type, ends);
  const spot = placeOf.get(thing.id ?? "");
  const when = fittedOf(vec, [point, occurrence]);
  const at = facts.place(thing);
  return {
    key,
    name: nameOf(vec, thing),
    label: describedBy(vec, occurrence),
    use,
    box: undefined,
    cavities: use === "open-end" ? [{ key: `${key} 1`, name: "1", sealed: false, fitted: [], at, madeOf: [] }] : [],
    part: partOf(vec, occurrence),
    fitted: when.fitted,
    node: spot?.node,
    ...(spot?.segment === undefined || spot.offsetMm === undefined
      ? {}
      : { spot: { segment: spot.segment, offsetMm: spot.offsetMm, fromEnd: spot.fromEnd === true } }),
    at,
    madeOf: [occurrence, terminal, ...describing(vec, occurrence), ...(spot?.madeOf ?? []), ...when.madeOf],
  };
}

function useOf(terminal: string | undefined, ends: number): ConnectorUse {
  if (terminal === "SpliceTerminalRole") return "splice";
  if (terminal !== undefined && /^(?:Ring|Bolt|Hole)TerminalRole$/u.test(terminal)) return "ring";
  return ends > 1 ? "splice" : "open-end";
}
