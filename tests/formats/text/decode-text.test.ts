import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { decodeText, encodeUtf8 } from "ohmward/formats";

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
