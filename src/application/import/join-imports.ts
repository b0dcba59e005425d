import { err, ok } from "../../base/index.ts";
import {
  joinDocuments,
  proposeMatings,
  type ConfirmedMating,
  type ImportedHarness,
  type MatingProposal,
  type ReadResult,
} from "../../import-export/index.ts";

/** One of several imports that become one machine. */
export interface ImportPart {
  readonly imported: ImportedHarness;
  /** The one build of it to keep; absent means all. */
  readonly build?: string;
}

/**
 * Proposes which connectors of several imports plug into one another, the likeliest first, with the evidence. No file states it, so a
 * person confirms.
 *
 * @param parts The imports.
 */
export function proposePairs(parts: readonly ImportPart[]): readonly MatingProposal[] {
  return proposeMatings(parts.map((part) => part.imported.document));
}

/**
 * Joins several imports into one machine and plugs together what a person has confirmed. Ids of the first stay, those of the others get
 * a prefix where they are taken; builds are combined.
 *
 * @param parts The imports, the main one first.
 * @param pairs Confirmed pairs.
 * @returns The document with the warnings of all imports and of the joining, or every problem.
 * @throws RangeError if there is no import.
 */
export function joinImports(parts: readonly ImportPart[], pairs: readonly ConfirmedMating[]): ReadResult {
  const before = parts.flatMap((part) => part.imported.warnings);
  const [only] = parts;
  if (only && parts.length === 1 && pairs.length === 0 && only.build === undefined) return ok(only.imported);
  const joined = joinDocuments(
    parts.map(({ imported, build }) => ({ document: imported.document, ...(build === undefined ? {} : { build }) })),
    pairs,
  );
  if (!joined.ok) return err([...before, ...joined.error]);
  // Checks of the parts that hold for the whole were found again.
  const texts = new Set(before.map(({ code, message }) => `${code} ${message}`));
  const fresh = joined.value.warnings.filter(({ code, message }) => !texts.has(`${code} ${message}`));
  const ledgers = parts.flatMap((part) => part.imported.ledgers ?? []);
  const proposals = parts.flatMap((part) => part.imported.proposals ?? []);
  return ok({ document: joined.value.document, warnings: [...before, ...fresh], ledgers, proposals });
}
