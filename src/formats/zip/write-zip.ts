import { zipSync, type Zippable } from "fflate";

/** The time written into every entry, so that the same tables give the same bytes: the first a zip file can hold. */
const NO_TIME = new Date(1980, 0, 1);

/**
 * Packs files into a zip file. The same files in the same order give the same bytes.
 *
 * @param files Names and contents, in order.
 */
export function writeZip(files: readonly (readonly [name: string, bytes: Uint8Array])[]): Uint8Array {
  // The names are those of this program's own tables, never taken from a file.
  const entries: Zippable = Object.fromEntries(files);
  return zipSync(entries, { mtime: NO_TIME, level: 6 });
}
