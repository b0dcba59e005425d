import { err, ok, type Result } from "../../base/index.ts";
import { importProblem, type ImportProblem } from "../import-problem.ts";
import { decodeUtf8, TextMaker } from "./decode-utf8.ts";

/** A text with the name of the encoding it was in. */
export interface DecodedText {
  readonly text: string;
  readonly encoding: "UTF-8" | "UTF-16LE" | "UTF-16BE" | "Windows-1252";
}

/** What bytes 80 to 9F stand for in Windows-1252; 0 where nothing is assigned. Source: the Unicode mapping table for code page 1252. */
const FROM_80: readonly number[] = [
  0x20ac, 0, 0x201a, 0x0192, 0x201e, 0x2026, 0x2020, 0x2021, 0x02c6, 0x2030, 0x0160, 0x2039, 0x0152, 0, 0x017d, 0, 0,
  0x2018, 0x2019, 0x201c, 0x201d, 0x2022, 0x2013, 0x2014, 0x02dc, 0x2122, 0x0161, 0x203a, 0x0153, 0, 0x017e, 0x0178,
];

/**
 * Decodes the bytes of a text file: UTF-8 with or without a byte order mark, UTF-16 with one, otherwise Windows-1252, which
 * older spreadsheets write.
 *
 * @param bytes The whole file.
 * @returns The text without its byte order mark and its encoding; or why it cannot be decoded.
 */
export function decodeText(bytes: Uint8Array): Result<DecodedText, ImportProblem> {
  const [first, second, third, fourth] = bytes;
  if ((first === 0xff && second === 0xfe && third === 0 && fourth === 0) || (first === 0 && third === 0xfe)) {
    return fault("UTF-32");
  }
  if (first === 0xff && second === 0xfe) return decodeUtf16(bytes, "UTF-16LE");
  if (first === 0xfe && second === 0xff) return decodeUtf16(bytes, "UTF-16BE");
  if (looksLikeUtf16(bytes)) return fault("UTF-16 without a byte order mark, or no text at all");
  const text = decodeUtf8(bytes);
  if (text !== undefined) return ok({ text, encoding: "UTF-8" });
  return decodeWindows1252(bytes);
}

function fault(encoding: string): Result<never, ImportProblem> {
  return err(importProblem("encoding-unknown", {}, { encoding }));
}

function decodeUtf16(bytes: Uint8Array, encoding: "UTF-16LE" | "UTF-16BE"): Result<DecodedText, ImportProblem> {
  if (bytes.length % 2 === 1) return fault(`${encoding} with half a character at its end`);
  const [low, high] = encoding === "UTF-16LE" ? [0, 1] : [1, 0];
  const maker = new TextMaker();
  for (let at = 2; at < bytes.length; at += 2) maker.push((bytes[at + low] ?? 0) + ((bytes[at + high] ?? 0) << 8));
  return ok({ text: maker.text(), encoding });
}

/** Every second byte of plain text in UTF-16 is zero, mostly. */
function looksLikeUtf16(bytes: Uint8Array): boolean {
  const looked = Math.min(bytes.length, 4096);
  const zeros = [0, 0];
  for (let at = 0; at < looked; at++) if (bytes[at] === 0) zeros[at % 2] = (zeros[at % 2] ?? 0) + 1;
  return looked >= 4 && Math.max(...zeros) > looked * 0.3;
}

function decodeWindows1252(bytes: Uint8Array): Result<DecodedText, ImportProblem> {
  const maker = new TextMaker();
  for (const byte of bytes) {
    const unit = byte >= 0x80 && byte < 0xa0 ? (FROM_80[byte - 0x80] ?? 0) : byte;
    if (unit === 0 && byte !== 0)
      return fault(`byte ${byte.toString(16).toUpperCase()} is neither UTF-8 nor Windows-1252`);
    maker.push(unit);
  }
  return ok({ text: maker.text(), encoding: "Windows-1252" });
}
