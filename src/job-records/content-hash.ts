/**
 * A short fingerprint of a text, to notice that data has changed. It is no protection against somebody who wants two texts to agree.
 *
 * @returns Sixteen hexadecimal digits, the same for the same text everywhere.
 *
 * Source: two runs of FNV-1a (IETF draft-eastlake-fnv) over the character codes, with different starts.
 */
export function contentHash(text: string): string {
  let first = 0x811c9dc5;
  let second = 0x1b873593;
  for (let index = 0; index < text.length; index++) {
    const code = text.charCodeAt(index);
    first = Math.imul(first ^ (code & 0xff), 0x01000193);
    first = Math.imul(first ^ (code >> 8), 0x01000193);
    second = Math.imul(second ^ code, 0x01000193);
    second = (second << 13) | (second >>> 19);
  }
  const hex = (word: number): string => (word >>> 0).toString(16).padStart(8, "0");
  return hex(first) + hex(second);
}
