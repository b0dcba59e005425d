import type { HarnessDocument } from "../harness-model/index.ts";
import { harnessCheck } from "../training/index.ts";

/** Digits of a mark: enough to tell the machines of a workshop apart, short enough for an address. */
const DIGITS = 12;

/**
 * The short mark of a machine that stands in addresses: the first digits of the fingerprint of its data. It is the same whatever the
 * order of the keys in the file, and another if any value changes.
 *
 * @param document The harness document.
 * @returns Twelve hexadecimal digits. No protection against somebody who wants two machines to agree.
 */
export function machineMark(document: HarnessDocument): string {
  return harnessCheck(document).slice(0, DIGITS);
}
