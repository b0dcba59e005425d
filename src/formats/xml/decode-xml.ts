/** Encodings an XML file may have here. */
export type XmlEncoding = "utf-8" | "utf-16le" | "utf-16be" | "windows-1252";

/** What the first bytes say about the encoding. */
export type EncodingFound =
  | { readonly kind: "known"; readonly encoding: XmlEncoding; readonly start: number }
  | { readonly kind: "unknown"; readonly name: string }
  | { readonly kind: "contradiction"; readonly declared: string; readonly found: string };

const DECLARATION = /^<\?xml\s[^>]*?encoding\s*=\s*["']([A-Za-z][A-Za-z0-9._-]*)["']/u;
/** Where a declaration has to stand; longer ones are not written by any program. */
const DECLARATION_BYTES = 512;

/**
 * Finds the encoding of an XML file: by byte order mark, by the pattern of zero bytes, then by its declaration. ISO 8859-1 is read as
 * Windows-1252, which has letters where the other has control characters.
 *
 * @param bytes The file.
 * @returns The encoding and where the text starts, the name of one that is not read, or how declaration and bytes disagree.
 *
 * Source: Extensible Markup Language (XML) 1.0, appendix F.
 */
export function findXmlEncoding(bytes: Uint8Array): EncodingFound {
  const starts = (...wanted: readonly number[]): boolean => wanted.every((byte, at) => bytes[at] === byte);
  if (starts(0x00, 0x00, 0xfe, 0xff) || starts(0x00, 0x00, 0x00, 0x3c)) return { kind: "unknown", name: "UTF-32" };
  if (starts(0xff, 0xfe, 0x00, 0x00) || starts(0x3c, 0x00, 0x00, 0x00)) return { kind: "unknown", name: "UTF-32" };
  if (starts(0xfe, 0xff)) return { kind: "known", encoding: "utf-16be", start: 2 };
  if (starts(0xff, 0xfe)) return { kind: "known", encoding: "utf-16le", start: 2 };
  if (starts(0x00, 0x3c)) return { kind: "known", encoding: "utf-16be", start: 0 };
  if (starts(0x3c, 0x00)) return { kind: "known", encoding: "utf-16le", start: 0 };
  const hasMark = starts(0xef, 0xbb, 0xbf);
  const start = hasMark ? 3 : 0;
  const declared = DECLARATION.exec(decodeSingleBytes(bytes, start, start + DECLARATION_BYTES))?.[1];
  if (declared === undefined) return { kind: "known", encoding: "utf-8", start };
  const encoding = namedEncoding(declared);
  if (encoding === "utf-16le") return { kind: "contradiction", declared, found: "one byte a character" };
  if (encoding === undefined) return { kind: "unknown", name: declared };
  if (hasMark && encoding !== "utf-8") return { kind: "contradiction", declared, found: "a UTF-8 byte order mark" };
  return { kind: "known", encoding, start };
}

/**
 * The encoding a declaration names.
 *
 * @param name As written, in any case.
 * @returns The encoding, `utf-16le` for UTF-16 of any byte order, or undefined for one that is not read.
 */
export function namedEncoding(name: string): XmlEncoding | undefined {
  switch (name.toLowerCase()) {
    case "utf-8":
    case "utf8":
    case "us-ascii":
    case "ascii":
      return "utf-8";
    case "utf-16":
    case "utf-16le":
    case "utf-16be":
      return "utf-16le";
    case "iso-8859-1":
    case "latin1":
    case "windows-1252":
    case "cp1252":
      return "windows-1252";
    default:
      return undefined;
  }
}

/** A piece of text and where the bytes after it start; `broken` where bytes stand that the encoding does not have. */
export interface DecodedPiece {
  readonly text: string;
  readonly next: number;
  readonly broken: boolean;
}

/** Characters of 0x80 to 0x9F in Windows-1252; the five empty places stay control characters. */
const WINDOWS_1252 =
  "\u20ac\u0081\u201a\u0192\u201e\u2026\u2020\u2021\u02c6\u2030\u0160\u2039\u0152\u008d\u017d\u008f" +
  "\u0090\u2018\u2019\u201c\u201d\u2022\u2013\u2014\u02dc\u2122\u0161\u203a\u0153\u009d\u017e\u0178";

/**
 * Decodes one piece of a file. A character cut in two at the end of the piece is left for the next one.
 *
 * @param bytes The whole file.
 * @param encoding Its encoding.
 * @param range Where the piece starts and where it ends at the latest.
 * @returns The text and where to go on; `next` is `range.start` only at the end of the file or where bytes are broken.
 */
export function decodePiece(
  bytes: Uint8Array,
  encoding: XmlEncoding,
  range: { readonly start: number; readonly end: number },
): DecodedPiece {
  const end = Math.min(range.end, bytes.length);
  switch (encoding) {
    case "windows-1252":
      return { text: decodeSingleBytes(bytes, range.start, end), next: end, broken: false };
    case "utf-16le":
    case "utf-16be":
      return decodeUtf16(bytes, { start: range.start, end }, encoding === "utf-16le");
    case "utf-8":
      return decodeUtf8(bytes, range.start, end);
  }
}

function decodeSingleBytes(bytes: Uint8Array, start: number, end: number): string {
  const units = Uint16Array.from(bytes.subarray(start, end), (byte) =>
    byte >= 0x80 && byte <= 0x9f ? WINDOWS_1252.charCodeAt(byte - 0x80) : byte,
  );
  return textOf(units, units.length);
}

function decodeUtf16(
  bytes: Uint8Array,
  { start, end }: { start: number; end: number },
  isLittle: boolean,
): DecodedPiece {
  const length = Math.floor((end - start) / 2);
  const units = new Uint16Array(length);
  for (let at = 0; at < length; at += 1) {
    const first = bytes[start + 2 * at] ?? 0;
    const second = bytes[start + 2 * at + 1] ?? 0;
    units[at] = isLittle ? first + 256 * second : 256 * first + second;
  }
  const broken = end === bytes.length && (end - start) % 2 !== 0;
  return { text: textOf(units, length), next: start + 2 * length, broken };
}

function decodeUtf8(bytes: Uint8Array, start: number, end: number): DecodedPiece {
  const units = new Uint16Array(end - start);
  let length = 0;
  let at = start;
  while (at < end) {
    const byte = bytes[at] ?? 0;
    if (byte < 0x80) {
      units[length++] = byte;
      at += 1;
      continue;
    }
    const size = byte >= 0xf0 ? 4 : byte >= 0xe0 ? 3 : 2;
    if (at + size > end && end < bytes.length) break;
    const point = codePoint(bytes, at, size);
    if (point < 0) return { text: textOf(units, length), next: at, broken: true };
    if (point > 0xffff) {
      units[length++] = 0xd800 + ((point - 0x10000) >> 10);
      units[length++] = 0xdc00 + ((point - 0x10000) & 0x3ff);
    } else units[length++] = point;
    at += size;
  }
  return { text: textOf(units, length), next: at, broken: false };
}

/** The code point of a sequence of 2 to 4 bytes, or -1 where UTF-8 has no such sequence. */
function codePoint(bytes: Uint8Array, at: number, size: number): number {
  const first = bytes[at] ?? 0;
  if (first < 0xc2 || first > 0xf4) return -1;
  let point = first & (0xff >> (size + 1));
  for (let more = 1; more < size; more += 1) {
    const byte = bytes[at + more] ?? 0;
    if ((byte & 0xc0) !== 0x80) return -1;
    point = (point << 6) | (byte & 0x3f);
  }
  const isSurrogate = point >= 0xd800 && point <= 0xdfff;
  const isTooShort = (size === 3 && point < 0x800) || (size === 4 && point < 0x10000);
  return isSurrogate || isTooShort || point > 0x10ffff ? -1 : point;
}

/** Units turned to text at a time: an engine takes only so many arguments. */
const AT_A_TIME = 8192;

function textOf(units: Uint16Array, length: number): string {
  const parts: string[] = [];
  for (let at = 0; at < length; at += AT_A_TIME) {
    parts.push(
      String(Reflect.apply(String.fromCharCode, undefined, units.subarray(at, Math.min(at + AT_A_TIME, length)))),
    );
  }
  // Joined, not added up: the parser reads letter by letter, which is slow on a text that is still in pieces.
  return parts.join("");
}
