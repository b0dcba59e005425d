import { runInNewContext } from "node:vm";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  evaluateOptionExpression,
  optionsNamed,
  parseOptionExpression,
  type OptionExpression,
} from "ohmward/harness-model";

function parse(text: string): OptionExpression {
  const parsed = parseOptionExpression(text);
  if (!parsed.ok) throw new Error(`"${text}" does not parse: ${parsed.error.message}`);
  return parsed.value;
}

const option = (id: string): OptionExpression => ({ kind: "option", id });

describe("parseOptionExpression()", () => {
  test.each<[string, OptionExpression]>([
    ["A", option("A")],
    ["  OPT-COLD  ", option("OPT-COLD")],
    ["2.5_t+x", option("2.5_t+x")],
    ["Größe", option("Größe")],
    ["constructor", option("constructor")],
    ["!A", { kind: "not", of: option("A") }],
    ["!!A", { kind: "not", of: { kind: "not", of: option("A") } }],
    ["A&B", { kind: "and", all: [option("A"), option("B")] }],
    ["A | B | C", { kind: "or", all: [option("A"), option("B"), option("C")] }],
    ["A | B & C", { kind: "or", all: [option("A"), { kind: "and", all: [option("B"), option("C")] }] }],
    ["(A | B) & C", { kind: "and", all: [{ kind: "or", all: [option("A"), option("B")] }, option("C")] }],
    ["!A & B", { kind: "and", all: [{ kind: "not", of: option("A") }, option("B")] }],
    ["((A))", option("A")],
    ["A\t&\nB", { kind: "and", all: [option("A"), option("B")] }],
  ])("reads %j", (text, expression) => {
    expect(parseOptionExpression(text)).toEqual({ ok: true, value: expression });
  });

  test.each<[string, number, string]>([
    ["", 0, "An option id is missing at the end"],
    ["   ", 3, "An option id is missing at the end"],
    ["A &", 3, "An option id is missing at the end"],
    ["!", 1, "An option id is missing at the end"],
    ["| A", 0, 'An option id is missing before "|"'],
    ["A & | B", 4, 'An option id is missing before "|"'],
    ["()", 1, 'An option id is missing before ")"'],
    ["A B", 2, 'An operator is missing before "B"'],
    ["A !B", 2, 'An operator is missing before "!"'],
    ["A (B)", 2, 'An operator is missing before "("'],
    ["A)", 1, 'An operator is missing before ")"'],
    ["(A", 2, "A closing bracket is missing"],
    ["(A | B & (C)", 12, "A closing bracket is missing"],
    ["A && B", 3, 'An option id is missing before "&"'],
    ["A = B", 2, 'Unexpected character "="'],
    ["A   ?", 4, 'Unexpected character "?"'],
    ["-A", 0, 'Unexpected character "-"'],
    ["A & 🚜", 4, 'Unexpected character "🚜"'],
  ])("refuses %j at character %i", (text, position, message) => {
    expect(parseOptionExpression(text)).toEqual({ ok: false, error: { position, message } });
  });

  test("takes 64 levels of brackets or negations and refuses the next, at its place", () => {
    expect(parseOptionExpression(`${"(".repeat(64)}A${")".repeat(64)}`).ok).toBe(true);
    expect(parseOptionExpression(`${"!".repeat(64)}A`).ok).toBe(true);
    const refused = { ok: false, error: { position: 65, message: "Nested deeper than 64 levels" } };
    expect(parseOptionExpression(`${"(".repeat(65)}A${")".repeat(65)}`)).toEqual(refused);
    expect(parseOptionExpression(`${"!".repeat(65)}A`)).toEqual(refused);
  });
});

const ids = ["A", "B", "C", "D"];

const { expression } = fc.letrec<{ expression: OptionExpression }>((tie) => ({
  expression: fc.oneof(
    { maxDepth: 4, withCrossShrink: true },
    fc.constantFrom(...ids).map(option),
    tie("expression").map((of): OptionExpression => ({ kind: "not", of })),
    fc
      .record({
        kind: fc.constantFrom("and" as const, "or" as const),
        all: fc.array(tie("expression"), { minLength: 2, maxLength: 3 }),
      })
      .map((parts): OptionExpression => parts),
  ),
}));

/** Writes an expression with brackets round everything that is joined. */
function print(of: OptionExpression): string {
  switch (of.kind) {
    case "option":
      return of.id;
    case "not":
      return `!${print(of.of)}`;
    case "and":
    case "or":
      return `(${of.all.map(print).join(of.kind === "and" ? " & " : " | ")})`;
  }
}

/** The same sentence in another language with an evaluator of its own: JavaScript's `&&`, `||` and `!`. */
function inJavaScript(text: string): (fitted: ReadonlySet<string>) => boolean {
  const source = text.replaceAll("&", "&&").replaceAll("|", "||");
  // Only the four names, brackets and operators are in the source.
  const judge = runInNewContext(`(${ids.join()}) => ${source}`) as (...are: readonly boolean[]) => boolean;
  return (fitted) => judge(...ids.map((id) => fitted.has(id)));
}

const subsets = Array.from(
  { length: 2 ** ids.length },
  (_, bits) => new Set(ids.filter((_id, at) => bits & (1 << at))),
);

describe("evaluateOptionExpression()", () => {
  test("says what JavaScript says of the same sentence, for every set of options", () => {
    fc.assert(
      fc.property(expression, (of) => {
        const text = print(of);
        const judge = inJavaScript(text);
        for (const fitted of subsets) {
          expect(evaluateOptionExpression(parse(text), fitted)).toBe(judge(fitted));
        }
      }),
      { seed: 45, numRuns: 300 },
    );
  });

  test("gives & before | as JavaScript does, without brackets", () => {
    const term = fc.tuple(fc.constantFrom("", "!", "!!"), fc.constantFrom(...ids)).map((parts) => parts.join(""));
    const flat = fc.array(fc.tuple(term, fc.constantFrom(" & ", "|", "&", " | ")), { minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(flat, (parts) => {
        const text = parts.flat().slice(0, -1).join("");
        const judge = inJavaScript(text);
        for (const fitted of subsets) {
          expect(evaluateOptionExpression(parse(text), fitted)).toBe(judge(fitted));
        }
      }),
      { seed: 45, numRuns: 300 },
    );
  });

  test("every text is parsed or refused with a position inside it", () => {
    const text = fc.string({ unit: fc.constantFrom("A", "B", " ", "&", "|", "!", "(", ")", "?", "-", "\u{1F69C}") });
    fc.assert(
      fc.property(text, (each) => {
        const parsed = parseOptionExpression(each);
        if (parsed.ok) return;
        expect(parsed.error.position).toBeGreaterThanOrEqual(0);
        expect(parsed.error.position).toBeLessThanOrEqual(each.length);
        expect(parsed.error.message).not.toBe("");
      }),
      { seed: 45, numRuns: 1000 },
    );
  });
});

test("optionsNamed() lists every option once, in order of appearance", () => {
  expect(optionsNamed(parse("C & (A | !C) | B & A"))).toEqual(["C", "A", "B"]);
});
