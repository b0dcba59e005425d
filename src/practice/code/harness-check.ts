import type { HarnessDocument } from "../../model/index.ts";
import { contentHash, plainText } from "../../records/index.ts";

// Worked out once a document, which never changes.
const known = new WeakMap<HarnessDocument, string>();

/**
 * A fingerprint of all data of a harness document: the same whatever the order of the keys in its file, another if any value changes.
 * The link to the schema does not count.
 *
 * @param document The document.
 * @returns Sixteen hexadecimal digits. No protection against somebody who wants two documents to agree.
 */
export function harnessCheck(document: HarnessDocument): string {
  let check = known.get(document);
  if (check === undefined) {
    const { $schema: _, ...data } = document;
    check = contentHash(plainText(data));
    known.set(document, check);
  }
  return check;
}
