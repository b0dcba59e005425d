const TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let rest = byte;
  for (let bit = 0; bit < 8; bit++) rest = rest & 1 ? (rest >>> 1) ^ 0xedb88320 : rest >>> 1;
  return rest;
});

/**
 * The check sum of a zip entry.
 *
 * @param bytes The bytes.
 * @param before The check sum of what came before them; 0 at the start.
 *
 * Source: CRC-32 of ISO 3309, as used by zip files.
 */
export function crc32(bytes: Uint8Array, before = 0): number {
  let rest = ~before;
  for (const byte of bytes) rest = (TABLE[(rest ^ byte) & 0xff] ?? 0) ^ (rest >>> 8);
  return ~rest >>> 0;
}
