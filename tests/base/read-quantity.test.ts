import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { formatQuantity, quantityProblem, readQuantity, type QuantityReading, type QuantityUnit } from "ohmward/base";
import { SPELLINGS, type Spelled } from "./quantity-spellings.ts";
import { CONTEXTS } from "./spelling-contexts.ts";

function told(reading: QuantityReading): unknown {
  switch (reading.kind) {
    case "value":
      return reading.value;
    case "overload":
      return "OL";
    case "question":
      return { ask: reading.ways.map(({ write }) => write) };
    case "refusal":
      return { why: reading.why, at: reading.at };
  }
}

function wanted(spelled: Spelled): unknown {
  return typeof spelled === "object" && "refuse" in spelled
    ? { why: expect.stringMatching(spelled.refuse) as string, at: spelled.at }
    : spelled;
}

describe("readQuantity()", () => {
  test("the table is long enough to mean something", () => {
    expect(new Set(SPELLINGS.map(([context, text]) => `${context} ${text}`)).size).toBe(SPELLINGS.length);
    expect(SPELLINGS.length).toBeGreaterThanOrEqual(200);
  });

  test.each(SPELLINGS)("%s: %j", (context, text, spelled) => {
    expect(told(readQuantity(text, CONTEXTS[context]))).toEqual(wanted(spelled));
  });

  test("every way of a question is taken without a further question", () => {
    for (const [context, text] of SPELLINGS) {
      const reading = readQuantity(text, CONTEXTS[context]);
      if (reading.kind !== "question") continue;
      for (const { write } of reading.ways)
        expect([write, readQuantity(write, CONTEXTS[context]).kind]).toEqual([
          write,
          write === "OL" ? "overload" : "value",
        ]);
    }
  });

  test("a question and a refusal say format of the file", () => {
    for (const [context, text] of SPELLINGS) {
      const reading = readQuantity(text, CONTEXTS[context]);
      if (reading.kind === "question" || reading.kind === "refusal")
        expect(quantityProblem(text, reading)).toMatch(/[Ww]rite .+\.$/u);
    }
  });
});

describe("the laws of reading", () => {
  const units = fc.constantFrom<QuantityUnit>("V", "A", "Ω");

  test("what the formatter writes reads back within the digits shown, never as a question", () => {
    const values = fc.tuple(
      fc.double({ min: 1, max: 10, maxExcluded: true, noNaN: true }),
      fc.integer({ min: -3, max: 7 }),
    );
    fc.assert(
      fc.property(values, fc.boolean(), units, ([mantissa, exponent], isMinus, unit) => {
        const value = (isMinus ? -1 : 1) * mantissa * 10 ** exponent;
        const text = formatQuantity(value, unit);
        const read = readQuantity(text, { units: ["V", "A", "Ω"], isMeter: true });
        if (read.kind !== "value") throw new Error(`${text} is read as ${read.kind}`);
        expect(formatQuantity(read.value, unit)).toBe(text);
        // Half a count of 6000 in the range, or half of the last decimal a person says.
        const least = unit === "Ω" ? 0.05 : Math.abs(value) < 0.1 ? 5e-5 : 0.005;
        expect(Math.abs(read.value - value)).toBeLessThanOrEqual(Math.max(least, Math.abs(value) / 199) * 1.000001);
      }),
      { seed: 45, numRuns: 2000 },
    );
  });

  test("no spelling of a number is taken as ten, a hundred or a thousand times it", () => {
    const groups = ["", ",", ".", " ", "'", "\u00a0", "\u2009", "\u202f", "\u2019"] as const;
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 99_999_999 }),
        fc.integer({ min: 0, max: 5 }),
        fc.constantFrom(...groups),
        fc.constantFrom(".", ","),
        (digits, decimals, group, decimal) => {
          fc.pre(group !== decimal);
          const text = String(digits).padStart(decimals + 1, "0");
          const whole = text.slice(0, text.length - decimals);
          const fraction = decimals === 0 ? "" : decimal + text.slice(-decimals);
          const spelled = whole.replace(/\B(?=(?:\d{3})+$)/gu, group) + fraction;
          const value = Number(`${digits}e-${decimals}`);
          const read = readQuantity(spelled, { units: ["Ω"] });
          if (read.kind === "value") expect(read.value).toBe(value);
          else if (read.kind === "question") {
            const ways = read.ways.map(({ write }) => readQuantity(write, { units: ["Ω"] }));
            expect(ways).toContainEqual(expect.objectContaining({ kind: "value", value }));
          } else throw new Error(`${spelled} is refused`);
        },
      ),
      { seed: 45, numRuns: 3000 },
    );
  });

  test("never throws, and every refusal has a place in the text", () => {
    const texts = fc.oneof(fc.string({ unit: "binary" }), fc.stringMatching(/^[-+0-9.,' ekKMmuRVΩol]{0,12}$/u));
    fc.assert(
      fc.property(texts, fc.constantFrom(...Object.values(CONTEXTS)), (text, context) => {
        const read = readQuantity(text, context);
        if (read.kind === "refusal") expect(read.at).toBeLessThanOrEqual(text.length);
        if (read.kind === "value") expect(Number.isFinite(read.value)).toBe(true);
        if (read.kind === "question") expect(read.ways.length).toBeGreaterThan(0);
      }),
      { seed: 45, numRuns: 5000 },
    );
  });
});
