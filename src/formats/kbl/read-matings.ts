import type { SourceMating } from "../xml/source/harness-source.ts";
import { childrenOf, type XmlElement } from "../xml/xml-element.ts";
import type { KblFacts } from "./kbl-facts.ts";

/** A connector of the harness or of a box, by the key it has in the source. */
export interface SlotOwner {
  readonly key: string;
  readonly element: XmlElement;
}

/** Reads mated slots and cavities, which 2.4 and later know, of connectors and of the connectors of boxes; each pair once. */
export function readMatings({ facts }: KblFacts, owners: readonly SlotOwner[]): readonly SourceMating[] {
  const keyOf = new Map(owners.map(({ key, element }) => [element, key]));
  const matings = new Map<
    string,
    Omit<SourceMating, "connectors" | "cavities"> & { connectors: [string, string]; cavities: [string, string][] }
  >();
  const take = ({ key, element }: SlotOwner, target: XmlElement, pair: [string, string] | undefined): void => {
    const other = ownerOf(target, keyOf);
    if (other === undefined || other === key) return;
    const isTurned = matings.has(`${other} ${key}`);
    const ids: [string, string] = isTurned ? [other, key] : [key, other];
    const mating = matings.get(ids.join(" ")) ?? {
      connectors: ids,
      cavities: [],
      at: facts.place(element),
      madeOf: [],
    };
    matings.set(ids.join(" "), mating);
    if (!pair) return;
    const turned: [string, string] = isTurned ? [pair[1], pair[0]] : pair;
    if (!mating.cavities.some((known) => known[0] === turned[0] && known[1] === turned[1]))
      mating.cavities.push(turned);
  };
  for (const owner of owners) {
    for (const slot of childrenOf(owner.element, "Slots")) {
      for (const other of facts.references(slot, "Mated_slots")) take(owner, other, undefined);
      for (const cavity of childrenOf(slot, "Cavities")) {
        for (const other of facts.references(cavity, "Mated_cavities")) {
          if (cavity.id !== undefined && other.id !== undefined) take(owner, other, [cavity.id, other.id]);
        }
      }
    }
  }
  return [...matings.values()];
}

function ownerOf(element: XmlElement, keyOf: ReadonlyMap<XmlElement, string>): string | undefined {
  let current: XmlElement | undefined = element;
  while (current && !keyOf.has(current)) current = current.parent;
  return current && keyOf.get(current);
}
