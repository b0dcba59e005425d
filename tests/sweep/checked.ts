import { isDeepStrictEqual } from "node:util";
import type { z } from "zod";

/** Words that stand in a text only where a value was missing. */
const NO_VALUE = /\b(?:NaN|undefined|-?Infinity)\b|\[object /u;

/**
 * Checks an answer as `--json` gives it: it fits its schema to the last key, and nothing that is no number stands for one. `null` stands
 * only in the figures of a reading that says by its kind that it has none.
 *
 * @param answer The answer.
 * @param schema Its schema.
 * @param text The same answer as text for people.
 * @throws Error that says what is wrong.
 */
export function checked(answer: unknown, schema: z.ZodType, text = ""): void {
  findUnsaid(answer, "answer");
  const back: unknown = JSON.parse(JSON.stringify(answer));
  if (!isDeepStrictEqual(schema.parse(back), back))
    throw new Error("The answer has keys that its schema does not have");
  const word = NO_VALUE.exec(text)?.[0];
  if (word !== undefined) throw new Error(`The text holds "${word}": ${text.slice(0, 400)}`);
}

const FIGURES = new Set(["value", "low", "high"]);

function findUnsaid(value: unknown, path: string): void {
  if (typeof value === "number" && !Number.isFinite(value)) throw new Error(`${path} is ${value}`);
  if (typeof value !== "object" || value === null) return;
  const entries = Object.entries(value);
  const kind: unknown = Reflect.get(value, "kind");
  for (const [key, inner] of entries) {
    const isFigure = FIGURES.has(key) && typeof kind === "string" && kind !== "value";
    if (inner === null && !isFigure) throw new Error(`${path}.${key} is null`);
    findUnsaid(inner, `${path}.${key}`);
  }
}
