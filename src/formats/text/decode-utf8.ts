/** Characters turned into text at a time: few enough for the arguments of one call. */
const CHUNK = 8192;

/** Puts a text together from UTF-16 units without a string per character. */
export class TextMaker {
  readonly #chunks: string[] = [];
  #units: number[] = [];

  push(unit: number): void {
    this.#units.push(unit);
    if (this.#units.length >= CHUNK) this.#flush();
  }

  pushCodePoint(point: number): void {
    if (point < 0x10000) {
      this.push(point);
      return;
    }
    this.push(0xd800 + ((point - 0x10000) >> 10));
    this.push(0xdc00 + ((point - 0x10000) & 0x3ff));
  }

  text(): string {
    this.#flush();
    return this.#chunks.join("");
  }

  #flush(): void {
    this.#chunks.push(String.fromCharCode(...this.#units));
    this.#units = [];
  }
}

/** Smallest code point that may be written with so many bytes; a longer form than needed is not UTF-8. */
const LEAST = [0, 0, 0x80, 0x800, 0x10000];

/**
 * Decodes UTF-8, strictly: a byte that does not fit means that the text is in some other encoding.
 *
 * @param bytes The bytes; a byte order mark at their start is not part of the text.
 * @returns The text, or undefined if the bytes are not UTF-8.
 *
 * Source: RFC 3629.
 */
export function decodeUtf8(bytes: Uint8Array): string | undefined {
  const maker = new TextMaker();
  let at = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf ? 3 : 0;
  while (at < bytes.length) {
    const first = bytes[at] ?? 0;
    at += 1;
    if (first < 0x80) {
      maker.push(first);
      continue;
    }
    const length = first >= 0xf0 ? 4 : first >= 0xe0 ? 3 : 2;
    if (first < 0xc2 || first > 0xf4) return undefined;
    let point = first & (0xff >> (length + 1));
    for (let more = 1; more < length; more++) {
      const byte = bytes[at] ?? 0;
      at += 1;
      if (byte >> 6 !== 2) return undefined;
      point = (point << 6) | (byte & 0x3f);
    }
    const isSurrogate = point >= 0xd800 && point < 0xe000;
    if (point < (LEAST[length] ?? 0) || point > 0x10ffff || isSurrogate) return undefined;
    maker.pushCodePoint(point);
  }
  return maker.text();
}
