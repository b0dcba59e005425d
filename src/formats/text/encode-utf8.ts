/** The bits of a first byte that say how many bytes follow. */
const LEAD = [0, 0xc0, 0xe0, 0xf0];

/**
 * Encodes a text as UTF-8. Half a surrogate pair, which no encoding has, becomes the replacement character.
 *
 * Source: RFC 3629.
 */
export function encodeUtf8(text: string): Uint8Array {
  const bytes = new Uint8Array(text.length * 3);
  let end = 0;
  for (const character of text) {
    let point = character.codePointAt(0) ?? 0;
    if (point >= 0xd800 && point < 0xe000) point = 0xfffd;
    if (point < 0x80) bytes[end++] = point;
    else {
      const more = point < 0x800 ? 1 : point < 0x10000 ? 2 : 3;
      bytes[end++] = (LEAD[more] ?? 0) | (point >> (6 * more));
      for (let left = more - 1; left >= 0; left--) bytes[end++] = 0x80 | ((point >> (6 * left)) & 0x3f);
    }
  }
  return bytes.slice(0, end);
}
