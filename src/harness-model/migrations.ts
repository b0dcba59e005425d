import { renameJson, wordsOf, type JsonRenames } from "../base/index.ts";

/** A change of the document form from one version to the next; it may rely on nothing but plain data. */
export interface Migration {
  /** What changed, as a short name. */
  readonly name: string;
  readonly from: number;
  readonly to: number;
  readonly migrate: (document: Readonly<Record<string, unknown>>) => Record<string, unknown>;
}

const CONNECTOR_KINDS = { device: "component", "ring-stack": "ring-terminals" };
const CONDITIONS = { isolated: "battery-disconnected" };
const KEYS = { halves: "sides", ofHalf: "ofSide", studs: "terminalStuds", places: "topologyNodes" };

const WORDS_OF_THE_TRADE: JsonRenames = {
  keys: KEYS,
  words: { "connectors kind": wordsOf(CONNECTOR_KINDS), "states conditions": wordsOf(CONDITIONS) },
};

/**
 * All migrations of the harness document, oldest first.
 *
 * Version 2 lets a document leave open what version 1 demanded, and takes what is left out as not known. Nothing is filled in for an
 * older document: what it does not say is not known there either, and a permission is never invented. Version 3 renames only.
 */
export const documentMigrations: readonly Migration[] = [
  { name: "what is not stated is not known", from: 1, to: 2, migrate: (document) => ({ ...document }) },
  { name: "words of the trade", from: 2, to: 3, migrate: (document) => renamedDocument(document, WORDS_OF_THE_TRADE) },
];

/** A document in the words of version 2. Fingerprints are taken of it, so that they stay what they were in older records. */
export function inWordsOfVersion2(document: Readonly<Record<string, unknown>>): Readonly<Record<string, unknown>> {
  const words = {
    "connectors kind": wordsOf(turned(CONNECTOR_KINDS)),
    "states conditions": wordsOf(turned(CONDITIONS)),
  };
  return { ...renamedDocument(document, { keys: turned(KEYS), words }), version: 2 };
}

function renamedDocument(document: Readonly<Record<string, unknown>>, renames: JsonRenames): Record<string, unknown> {
  return renameJson(document, renames) as Record<string, unknown>;
}

function turned(renamed: Readonly<Record<string, string>>): Readonly<Record<string, string>> {
  return Object.fromEntries(Object.entries(renamed).map(([old, today]) => [today, old]));
}

/**
 * Carries a document of an older version to the newest one, step by step.
 *
 * @param document Parsed data with a numeric `version`; it is not changed.
 * @param migrations The steps, oldest first, each from one version to the next.
 * @returns The document at the version after the last step that applied.
 * @example
 * ```ts
 * import { migrateDocument } from "ohmward/harness-model";
 * const steps = [{ name: "rename title", from: 1, to: 2, migrate: (d) => ({ ...d, title: d.name }) }];
 * expect(migrateDocument({ version: 1, name: "x" }, steps)).toMatchObject({ version: 2, title: "x" });
 * ```
 */
export function migrateDocument(
  document: Readonly<Record<string, unknown>>,
  migrations: readonly Migration[],
): Readonly<Record<string, unknown>> {
  let current = document;
  for (const step of migrations) {
    if (current["version"] === step.from) current = { ...step.migrate(current), version: step.to };
  }
  return current;
}
