import { err, ok, type Result } from "../base/index.ts";
import { importProblem, type ImportProblem } from "./import-problem.ts";

// Every target has these two; the libraries that declare them would bring in all other names of the browser or of Node.
declare class TextDecoder {
  constructor(encoding: string, options: { readonly fatal: boolean; readonly ignoreBOM: boolean });
  decode(bytes: Uint8Array, options: { readonly stream: boolean }): string;
}
declare class TextEncoder {
  encode(text: string): Uint8Array;
}

/** Encodings that are read. */
export type TextEncoding = "utf-8" | "utf-16le" | "utf-16be" | "windows-1252";

/** Bytes 80 to 9F in Windows-1252, a control character where no letter stands. Source: the Encoding standard (WHATWG). */
const FROM_80 =
  "\u20ac\u0081\u201a\u0192\u201e\u2026\u2020\u2021\u02c6\u2030\u0160\u2039\u0152\u008d\u017d\u008f" +
  "\u0090\u2018\u2019\u201c\u201d\u2022\u2013\u2014\u02dc\u2122\u0161\u203a\u0153\u009d\u017e\u0178";

/**
 * Decodes bytes strictly; a byte order mark stays in the text.
 *
 * @param isPiece Whether more bytes follow: a character cut in two at the end is left out then.
 * @returns The text, or undefined where the encoding has no such bytes.
 */
function decode(bytes: Uint8Array, encoding: TextEncoding, isPiece = false): string | undefined {
  let text: string;
  try {
    text = new TextDecoder(encoding, { fatal: true, ignoreBOM: true }).decode(bytes, { stream: isPiece });
  } catch {
    return undefined;
  }
  if (encoding !== "windows-1252") return text;
  // Node from 20.18.3 and 22.13 on takes these bytes for control characters; what a right decoder gives stays as it is.
  return text.replace(/[\u0080-\u009f]/gu, (control) => FROM_80.charAt(control.charCodeAt(0) - 0x80));
}

/** Encodes a text as UTF-8; half a surrogate pair becomes the replacement character. */
export function encodeUtf8(text: string): Uint8Array {
  return new TextEncoder().encode(text);
}

/** Decodes UTF-8 strictly, without a byte order mark at its start; undefined if the bytes are not UTF-8. */
export function decodeUtf8(bytes: Uint8Array): string | undefined {
  return decode(bytes, "utf-8")?.replace(/^\ufeff/u, "");
}

/** Decodes the start of a file as Windows-1252, which has a character for every byte. */
export function decodeSingleBytes(bytes: Uint8Array): string {
  return decode(bytes, "windows-1252") ?? "";
}

/** A piece of text and where the bytes after it start; `broken` where bytes stand that the encoding does not have. */
export interface DecodedPiece {
  readonly text: string;
  readonly next: number;
  readonly broken: boolean;
}

/**
 * Decodes one piece of a file. A character cut in two at the end of the piece is left for the next one.
 *
 * @param range Where the piece starts, at a whole character, and where it ends at the latest.
 * @returns The text and where to go on; `next` is `range.start` only at the end of the file or where bytes are broken.
 */
export function decodePiece(
  bytes: Uint8Array,
  encoding: TextEncoding,
  range: { readonly start: number; readonly end: number },
): DecodedPiece {
  const piece = bytes.subarray(range.start, range.end);
  const whole = decode(piece, encoding, range.end < bytes.length);
  const text = whole ?? longestText(piece, encoding);
  const size =
    encoding === "utf-8" ? encodeUtf8(text).length : encoding === "windows-1252" ? text.length : text.length * 2;
  return { text, next: range.start + size, broken: whole === undefined };
}

/** The text before the first bytes that cannot be. */
function longestText(piece: Uint8Array, encoding: TextEncoding): string {
  let [text, good, bad] = ["", 0, piece.length + 1];
  while (bad - good > 1) {
    const middle = (good + bad) >> 1;
    const part = decode(piece.subarray(0, middle), encoding, true);
    if (part === undefined) bad = middle;
    else [text, good] = [part, middle];
  }
  return text;
}

/** A text with the name of the encoding it was in. */
export interface DecodedText {
  readonly text: string;
  readonly encoding: "UTF-8" | "UTF-16LE" | "UTF-16BE" | "Windows-1252";
}

/**
 * Decodes the bytes of a text file: UTF-8 with or without a byte order mark, UTF-16 with one, otherwise Windows-1252, which
 * older spreadsheets write.
 *
 * @returns The text without its byte order mark and its encoding; or why it cannot be decoded.
 */
export function decodeText(bytes: Uint8Array): Result<DecodedText, ImportProblem> {
  const [first, second, third, fourth] = bytes;
  if ((first === 0xff && second === 0xfe && third === 0 && fourth === 0) || (first === 0 && third === 0xfe))
    return fault("UTF-32");
  if (first === 0xff && second === 0xfe) return decodeUtf16(bytes, "UTF-16LE");
  if (first === 0xfe && second === 0xff) return decodeUtf16(bytes, "UTF-16BE");
  if (looksLikeUtf16(bytes)) return fault("UTF-16 without a byte order mark, or no text at all");
  const text = decodeUtf8(bytes);
  if (text !== undefined) return ok({ text, encoding: "UTF-8" });
  // Nothing says that the file is in Windows-1252; a byte that stands for no letter there shows that it is something else.
  const odd = bytes.find((byte) => byte >= 0x80 && byte < 0xa0 && FROM_80.charCodeAt(byte - 0x80) === byte);
  if (odd !== undefined) return fault(`byte ${odd.toString(16).toUpperCase()} is neither UTF-8 nor Windows-1252`);
  return ok({ text: decodeSingleBytes(bytes), encoding: "Windows-1252" });
}

function fault(encoding: string): Result<never, ImportProblem> {
  return err(importProblem("encoding-unknown", {}, { encoding }));
}

function decodeUtf16(bytes: Uint8Array, encoding: "UTF-16LE" | "UTF-16BE"): Result<DecodedText, ImportProblem> {
  if (bytes.length % 2 === 1) return fault(`${encoding} with half a character at its end`);
  const text = decode(bytes.subarray(2), encoding === "UTF-16LE" ? "utf-16le" : "utf-16be");
  return text === undefined ? fault(`${encoding} with half a character in it`) : ok({ text, encoding });
}

/** Every second byte of plain text in UTF-16 is zero, mostly. */
function looksLikeUtf16(bytes: Uint8Array): boolean {
  const looked = Math.min(bytes.length, 4096);
  const zeros = [0, 0];
  for (let at = 0; at < looked; at++) if (bytes[at] === 0) zeros[at % 2] = (zeros[at % 2] ?? 0) + 1;
  return looked >= 4 && Math.max(...zeros) > looked * 0.3;
}
