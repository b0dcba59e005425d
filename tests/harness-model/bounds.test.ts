import { describe, expect, test } from "vitest";
import { BOUNDS, boundsText, generatedFiles, isWithin, openHarness, within } from "ohmward/harness-model";
import { everyNumber } from "../sweep/every-number.ts";
import { numbersOf, withNumber } from "../sweep/numbers.ts";

const document = everyNumber();
const numbers = numbersOf(document);
const problemsAt = (path: readonly (string | number)[], value: number): readonly string[] => {
  const opened = openHarness(withNumber(document, path, value));
  return opened.ok ? [] : opened.error.map(({ at, message }) => `${at.path}: ${message}`);
};
/** Names of fields that the schema of the document gives a number, wherever they stand. */
const numberFields = (): ReadonlySet<string> => {
  const found = new Set<string>();
  const isNumber = (schema: unknown): boolean => {
    if (typeof schema !== "object" || schema === null) return false;
    const either: unknown = Reflect.get(schema, "anyOf");
    if (Array.isArray(either)) return either.some(isNumber);
    return ["number", "integer"].includes(String(Reflect.get(schema, "type")));
  };
  const walk = (value: unknown): void => {
    if (typeof value !== "object" || value === null) return;
    const properties: unknown = Reflect.get(value, "properties");
    if (typeof properties === "object" && properties !== null)
      for (const [name, schema] of Object.entries(properties)) if (isNumber(schema)) found.add(name);
    for (const inner of Object.values(value)) walk(inner);
  };
  walk(JSON.parse(generatedFiles()[0]?.text ?? "{}"));
  return found;
};

describe("the bounds of numbers", () => {
  test("the document of this test has every number that a document can have", () => {
    const names = new Set(numbers.map(({ path }) => String(path.findLast((step) => typeof step === "string"))));
    expect([...numberFields()].filter((name) => !names.has(name) && name !== "version")).toEqual([]);
    expect(openHarness(JSON.stringify(document)).ok).toBe(true);
  });

  test.each(numbers.map(({ path }) => [path.join("."), path] as const))("%s has two ends", (name, path) => {
    for (const value of [1e300, -1e300]) expect(problemsAt(path, value).join("\n")).toContain(String(path[0]));
    // JSON has no number for it; whoever writes 1e999 gets the same sentence.
    const text = withNumber(document, path, 4e299).replace("4e+299", "1e999");
    expect(openHarness(text).ok, name).toBe(false);
  });

  test("a refusal names what is wanted, with its unit, for all places at once", () => {
    const text = JSON.stringify(document).replaceAll(/"resistanceOhm":[^,}]+/gu, '"resistanceOhm":1e-200');
    const opened = openHarness(text);
    const messages = opened.ok ? [] : opened.error.map(({ message }) => message);
    expect(messages.length).toBeGreaterThan(3);
    expect(new Set(messages)).toEqual(new Set([boundsText(BOUNDS.ohm)]));
  });

  test.each(Object.entries(BOUNDS))("%s takes both of its ends, and nothing beyond them", (_, bounds) => {
    const schema = within(bounds);
    for (const value of [bounds.least, bounds.most]) expect(schema.safeParse(value).success).toBe(true);
    for (const value of [
      bounds.most * 1.001,
      bounds.least - Math.abs(bounds.least) * 0.001 - 1e-12,
      NaN,
      Infinity,
      -Infinity,
    ]) {
      expect(schema.safeParse(value).success).toBe(false);
      expect(isWithin(bounds, value)).toBe(false);
    }
    expect(schema.safeParse(0).success).toBe(isWithin(bounds, 0));
  });

  test("0 ohm is an ideal bar and stays one", () => {
    expect(isWithin(BOUNDS.ohm, 0)).toBe(true);
    expect(isWithin(BOUNDS.ohm, 1e-200)).toBe(false);
    expect(isWithin(BOUNDS.ohm, 1e308)).toBe(false);
  });

  test("the inputs of a table rise", () => {
    const falling = JSON.stringify(document).replace("[[-40,100000],[150,50]]", "[[150,50],[-40,100000]]");
    const opened = openHarness(falling);
    expect(opened.ok ? "" : opened.error[0]?.message).toContain("rise from row to row");
  });
});
