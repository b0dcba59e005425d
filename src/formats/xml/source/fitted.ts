import type {
  FittedWith,
  HarnessSource,
  SourceConnector,
  SourceContact,
  SourceSegment,
  SourceWire,
} from "./harness-source.ts";

/** The options of one build, by key. */
export type OptionKeys = ReadonlySet<string>;

/** Whether a thing is fitted with a set of options. */
export function isFittedWith(fitted: FittedWith, options: OptionKeys): boolean {
  if (fitted === undefined) return true;
  for (const key of fitted) if (options.has(key)) return true;
  return false;
}

/** What several things are fitted with together: always, as soon as one of them is. */
export function unionOf(parts: readonly FittedWith[]): FittedWith {
  const union = new Set<string>();
  for (const part of parts) {
    if (part === undefined) return undefined;
    for (const key of part) union.add(key);
  }
  return union;
}

/** Contact points and wires by what they hang on; worked out once a source. */
export interface SourceIndex {
  readonly connectors: ReadonlyMap<string, SourceConnector>;
  readonly segments: ReadonlyMap<string, SourceSegment>;
  readonly contacts: ReadonlyMap<string, SourceContact>;
  readonly contactsOf: ReadonlyMap<string, readonly SourceContact[]>;
  /** Wires by contact, once for each end there. */
  readonly wiresAt: ReadonlyMap<string, readonly SourceWire[]>;
}

/** Works the index of a source out. */
export function indexSource(source: HarnessSource): SourceIndex {
  const contactsOf = new Map<string, SourceContact[]>();
  for (const contact of source.contacts) {
    const list = contactsOf.get(contact.connector) ?? [];
    list.push(contact);
    contactsOf.set(contact.connector, list);
  }
  const wiresAt = new Map<string, SourceWire[]>();
  for (const wire of source.wires) {
    for (const end of wire.ends) {
      const list = wiresAt.get(end.contact) ?? [];
      list.push(wire);
      wiresAt.set(end.contact, list);
    }
  }
  return {
    connectors: new Map(source.connectors.map((connector) => [connector.key, connector])),
    segments: new Map(source.segments.map((segment) => [segment.key, segment])),
    contacts: new Map(source.contacts.map((contact) => [contact.key, contact])),
    contactsOf,
    wiresAt,
  };
}
