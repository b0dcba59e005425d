import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { decodeText, encodeUtf8 } from "ohmward/import-export";
import { decodePiece, type TextEncoding } from "../../src/import-export/text.ts";

const encoder = new TextEncoder();

describe("decodeText()", () => {
  test("decodes UTF-8 as the decoder of the platform does", () => {
    const decoder = new TextDecoder("utf-8", { fatal: true });
    fc.assert(
      fc.property(fc.string({ unit: "binary", maxLength: 200 }), (text) => {
        const bytes = encoder.encode(text);
        const decoded = decodeText(bytes);
        // A text full of NULs is taken for UTF-16.
        if (decoded.ok) expect(decoded.value).toEqual({ text: decoder.decode(bytes), encoding: "UTF-8" });
        else expect(text).toContain("\0");
      }),
      { seed: 1, numRuns: 400 },
    );
  });

  test("takes bytes for UTF-8 exactly when the decoder of the platform does", () => {
    const decoder = new TextDecoder("utf-8", { fatal: true });
    const isUtf8 = (bytes: Uint8Array): boolean => {
      try {
        decoder.decode(bytes);
        return true;
      } catch {
        return false;
      }
    };
    const byte = fc.constantFrom(
      0x41,
      0x7f,
      0x80,
      0xa0,
      0xbf,
      0xc0,
      0xc2,
      0xdf,
      0xe0,
      0xed,
      0xef,
      0xf0,
      0xf4,
      0xf5,
      0xff,
    );
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 6 }), fc.array(byte, { maxLength: 6 }), (any, chosen) => {
        for (const bytes of [any, Uint8Array.from(chosen)]) {
          const [first, second] = bytes;
          const hasMark = (first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff);
          if (hasMark || bytes.includes(0)) continue;
          const decoded = decodeText(bytes);
          expect(decoded.ok && decoded.value.encoding === "UTF-8").toBe(isUtf8(bytes));
        }
      }),
      { seed: 2, numRuns: 3000 },
    );
  });

  test("decodes Windows-1252 by its code page, apart from bytes that stand for nothing", () => {
    // Source: code page 1252 as the Unicode Consortium maps it; written down with the codec cp1252 of Python 3.11, as the decoder
    // of Node 20 takes bytes 80 to 9F for control characters.
    const printed = "€‚ƒ„…†‡ˆ‰Š‹ŒŽ‘’“”•–—˜™š›œžŸ";
    let at = 0;
    for (let byte = 0x80; byte < 0x100; byte++) {
      const decoded = decodeText(Uint8Array.of(0x41, byte));
      if ([0x81, 0x8d, 0x8f, 0x90, 0x9d].includes(byte)) {
        expect(decoded.ok).toBe(false);
        continue;
      }
      const text = `A${byte < 0xa0 ? (printed[at++] ?? "") : String.fromCharCode(byte)}`;
      expect(decoded).toEqual({ ok: true, value: { text, encoding: "Windows-1252" } });
    }
    expect(at).toBe(27);
  });

  test.each([
    ["UTF-8", "utf8", [0xef, 0xbb, 0xbf]],
    ["UTF-16LE", "utf16le", [0xff, 0xfe]],
  ] as const)("takes the byte order mark off %s", (encoding, name, mark) => {
    const bytes = Uint8Array.from([...mark, ...Buffer.from("Größe €😀", name)]);
    expect(decodeText(bytes)).toEqual({ ok: true, value: { text: "Größe €😀", encoding } });
  });

  test("decodes UTF-16 with the high byte first", () => {
    const bytes = Uint8Array.from([0xff, 0xfe, ...Buffer.from("Größe €😀", "utf16le")]);
    for (let at = 0; at < bytes.length; at += 2) bytes.set([bytes[at + 1] ?? 0, bytes[at] ?? 0], at);
    expect(decodeText(bytes)).toEqual({ ok: true, value: { text: "Größe €😀", encoding: "UTF-16BE" } });
  });

  test.each([
    ["UTF-16 with half a character", [0xff, 0xfe, 0x41]],
    ["UTF-16 with half a surrogate pair", [0xff, 0xfe, 0x3d, 0xd8, 0x41, 0x00]],
    ["UTF-32, low byte first", [0xff, 0xfe, 0, 0]],
    ["UTF-32, high byte first", [0, 0, 0xfe, 0xff]],
  ])("refuses %s", (_name, bytes) => {
    const decoded = decodeText(Uint8Array.from(bytes));
    expect(decoded.ok ? "" : decoded.error.code).toBe("encoding-unknown");
  });
});

test("encodeUtf8() gives the bytes the encoder of the platform gives", () => {
  fc.assert(
    fc.property(
      fc.string({ unit: fc.integer({ min: 0, max: 0xffff }).map((unit) => String.fromCharCode(unit)) }),
      (text) => {
        expect(encodeUtf8(text)).toEqual(encoder.encode(text));
      },
    ),
    { seed: 3, numRuns: 400 },
  );
});

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

// The reference is the decoder of the platform, asked of ever longer beginnings of the same bytes.
test.each([
  ["utf-8", [0x41, 0xe2, 0x82, 0x41], 1],
  ["utf-8", [0x41, 0xc3, 0xa4, 0xff, 0x41], 3],
  ["utf-8", [0x41, 0xf0, 0x9f], 1],
  ["utf-16le", [0x41, 0, 0x3d, 0xd8, 0x41, 0], 2],
  ["utf-16be", [0, 0x41, 0xdc, 0x00, 0, 0x41], 2],
  ["utf-16le", [0x41, 0, 0x42], 2],
] as const)("decodePiece() tells where %s breaks in %j", (encoding, list, at) => {
  const bytes = Uint8Array.from(list);
  const decodes = (end: number): boolean => {
    try {
      return new TextDecoder(encoding, { fatal: true }).decode(bytes.subarray(0, end)).length >= 0;
    } catch {
      return false;
    }
  };
  expect([decodes(at), decodes(bytes.length)]).toEqual([true, false]);
  const piece = decodePiece(bytes, encoding, { start: 0, end: bytes.length });
  expect(piece).toMatchObject({ next: at, broken: true });
  expect(piece.text).toBe(new TextDecoder(encoding).decode(bytes.subarray(0, at)));
});
