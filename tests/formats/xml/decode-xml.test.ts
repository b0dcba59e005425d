import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { decodePiece, type TextEncoding } from "../../../src/formats/text.ts";
import { findXmlEncoding } from "../../../src/formats/xml/read-xml.ts";

/** Decodes a file in pieces of one size. */
function inPieces(bytes: Uint8Array, encoding: TextEncoding, size: number): string | undefined {
  let text = "";
  let start = 0;
  while (start < bytes.length) {
    const piece = decodePiece(bytes, encoding, { start, end: start + size });
    if (piece.broken || piece.next === start) return undefined;
    text += piece.text;
    start = piece.next;
  }
  return text;
}

// The reference is the decoder of the platform, which follows the Encoding standard (WHATWG).
describe("decodePiece() agrees with the decoder of the platform", () => {
  test("on UTF-8, also where pieces cut a character", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary" }), fc.integer({ min: 4, max: 40 }), (text, size) => {
        const bytes = new TextEncoder().encode(text);
        expect(inPieces(bytes, "utf-8", size) ?? "").toBe(new TextDecoder("utf-8", { ignoreBOM: true }).decode(bytes));
      }),
      { seed: 7, numRuns: 500 },
    );
  });

  test("on bytes of any kind: both read them alike, or both refuse", () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 12 }), (bytes) => {
        let expected: string | undefined;
        try {
          expected = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
        } catch {
          expected = undefined;
        }
        expect(inPieces(bytes, "utf-8", 64)).toBe(expected);
      }),
      { seed: 11, numRuns: 5000 },
    );
  });

  test.each(["utf-16le", "utf-16be"] as const)("on %s", (encoding) => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 0xd7ff })), (units) => {
        const bytes = Uint8Array.from(
          units.flatMap((unit) => (encoding === "utf-16le" ? [unit & 255, unit >> 8] : [unit >> 8, unit & 255])),
        );
        expect(inPieces(bytes, encoding, 6) ?? "").toBe(new TextDecoder(encoding, { ignoreBOM: true }).decode(bytes));
      }),
      { seed: 13, numRuns: 300 },
    );
  });

  // Source: Windows-1252 in the Encoding standard (WHATWG); the platform at hand reads that name as ISO 8859-1.
  test("on all 256 bytes of Windows-1252", () => {
    const bytes = Uint8Array.from({ length: 256 }, (_, byte) => byte);
    const letters = "€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ";
    const decoded = inPieces(bytes, "windows-1252", 100) ?? "";
    expect(decoded.slice(0x80, 0xa0)).toBe(letters);
    const others = [...decoded].filter((_, byte) => byte < 0x80 || byte > 0x9f);
    expect(others.map((letter) => letter.charCodeAt(0))).toEqual(
      [...bytes].filter((byte) => byte < 0x80 || byte > 0x9f),
    );
  });
});

describe("findXmlEncoding()", () => {
  const latin1 = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));
  test.each([
    [`<a/>`, "utf-8"],
    [`<?xml version="1.0"?>`, "utf-8"],
    [`<?xml version='1.0' encoding='ISO-8859-1'?>`, "windows-1252"],
    [`<?xml version="1.0" encoding = "utf-8"?>`, "utf-8"],
    [`<?xml version="1.0" encoding="US-ASCII" standalone="yes"?>`, "utf-8"],
    [`\xEF\xBB\xBF<a/>`, "utf-8"],
    [`\xFF\xFE<\0`, "utf-16le"],
    [`\xFE\xFF\0<`, "utf-16be"],
    [`<\0?\0`, "utf-16le"],
    [`\0<\0?`, "utf-16be"],
  ])("of %j is %s", (text, encoding) => {
    expect(findXmlEncoding(latin1(text))).toMatchObject({ kind: "known", encoding });
  });
});
