import { indexSource, isFittedWith, type OptionKeys, type SourceIndex } from "./fitted.ts";
import type { ConnectorUse, HarnessSource } from "./harness-source.ts";

/** A cavity in which several contact points have a wire. */
export interface ContactedTwice {
  readonly connector: string;
  readonly use: ConnectorUse;
  readonly cavity: string;
  readonly isBox: boolean;
  /** Names of the wires, in the order of the file. */
  readonly wires: readonly string[];
}

/**
 * Finds cavities that would hold several contact points with wires at once. On a splice that is how it is made; anywhere else the
 * contact points exclude one another, and the options of the file are not resolved.
 *
 * @param source The file.
 * @param options Keys of the options fitted.
 * @param index The index of the source, where it is known already.
 * @returns All of them, in the order of the file.
 */
export function findContactedTwice(
  source: HarnessSource,
  options: OptionKeys,
  index: SourceIndex = indexSource(source),
): readonly ContactedTwice[] {
  const found: ContactedTwice[] = [];
  for (const connector of source.connectors) {
    const used = new Map<string, { contacts: number; wires: string[] }>();
    for (const contact of index.contactsOf.get(connector.key) ?? []) {
      const wires = (index.wiresAt.get(contact.key) ?? []).filter((wire) => isFittedWith(wire.fitted, options));
      if (wires.length === 0) continue;
      for (const cavity of contact.cavities) {
        const entry = used.get(cavity) ?? { contacts: 0, wires: [] };
        entry.contacts += 1;
        entry.wires.push(...wires.map((wire) => wire.name));
        used.set(cavity, entry);
      }
    }
    for (const cavity of connector.cavities) {
      const entry = used.get(cavity.key);
      if (!entry || entry.contacts < 2) continue;
      const { name, use, box } = connector;
      found.push({ connector: name, use, cavity: cavity.name, isBox: box !== undefined, wires: entry.wires });
    }
  }
  return found;
}
