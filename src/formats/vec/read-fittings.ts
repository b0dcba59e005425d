import type { SourceFitting } from "../xml/source/harness-source.ts";
import { childrenOf, type XmlElement } from "../xml/xml-element.ts";
import { partOf, rolesOf, type VecFacts } from "./vec-facts.ts";

/** What is fitted in cavities, by the id of the cavity reference. */
export interface Fittings {
  readonly parts: ReadonlyMap<string, readonly SourceFitting[]>;
  /** Roles of seals with their occurrences; also of those without a part. */
  readonly seals: ReadonlyMap<string, readonly XmlElement[]>;
}

/** Reads terminals, seals and plugs that contact points put into cavities, and plugs that name their cavity themselves. */
export function readFittings(vec: VecFacts): Fittings {
  const { facts, specifications } = vec;
  const parts = new Map<string, SourceFitting[]>();
  const seals = new Map<string, XmlElement[]>();
  const take = (cavity: string, role: XmlElement, what: SourceFitting["what"] | undefined): void => {
    const occurrence = role.parent;
    const from = [role, ...(occurrence ? [occurrence] : [])];
    if (what === "seal") seals.set(cavity, from);
    const part = partOf(vec, occurrence);
    if (what === undefined) facts.account.leaveOut(from, "no terminal, seal or plug");
    else if (part)
      parts.set(cavity, [...(parts.get(cavity) ?? []), { ...part, madeOf: [...from, ...part.madeOf], what }]);
    else facts.account.leaveOut(from, "its part has no number");
  };
  const points = (specifications.get("ContactingSpecification") ?? []).flatMap((each) =>
    childrenOf(each, "ContactPoint"),
  );
  for (const point of points) {
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
  return { parts, seals };
}

function sortOf({ type = "" }: XmlElement): SourceFitting["what"] | undefined {
  if (/CavitySealRole$/u.test(type)) return "seal";
  return /CavityPlugRole$/u.test(type) ? "plug" : undefined;
}
