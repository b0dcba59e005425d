import { BOUNDS, openHarness } from "ohmward/harness-model";
import { everyNumber } from "./every-number.ts";
import type { SweptMachine } from "./machines.ts";

/** The way to a number in a document. */
export interface NumberAt {
  readonly path: readonly (string | number)[];
  readonly value: number;
}

/** Every number of a document but its version. */
export function numbersOf(value: unknown, path: readonly (string | number)[] = []): readonly NumberAt[] {
  if (typeof value === "number") return path[0] === "version" ? [] : [{ path, value }];
  if (typeof value !== "object" || value === null) return [];
  if (Array.isArray(value)) return value.flatMap((inner, at) => numbersOf(inner, [...path, at]));
  return Object.entries(value).flatMap(([key, inner]) => numbersOf(inner, [...path, key]));
}

/** The text of a document with another number at one place. */
export function withNumber(document: object, path: readonly (string | number)[], value: number): string {
  const copy: object = structuredClone(document);
  let holder = copy;
  for (const step of path.slice(0, -1)) {
    const inner: unknown = Reflect.get(holder, step);
    if (typeof inner !== "object" || inner === null) throw new Error(`There is nothing at ${path.join(".")}`);
    holder = inner;
  }
  Reflect.set(holder, path.at(-1) ?? "", value);
  return JSON.stringify(copy);
}

const ENDS = [...new Set(Object.values(BOUNDS).flatMap(({ least, most }) => [least, most, 0]))];

/** A document with every number there is, each in turn at the least, the smallest above 0 and the greatest with which it opens. */
export function* atEveryEnd(document = everyNumber()): Generator<SweptMachine> {
  for (const { path, value } of numbersOf(document)) {
    const opened = new Map(
      ENDS.filter((end) => end !== value).flatMap((end) => {
        const read = openHarness(withNumber(document, path, end));
        return read.ok ? [[end, read.value.document] as const] : [];
      }),
    );
    const rising = [...opened.keys()].toSorted((a, b) => a - b);
    const ends = new Set([rising[0], rising.find((end) => end > 0), rising.at(-1)]);
    for (const end of ends) {
      const changed = opened.get(end ?? NaN);
      if (changed) yield { name: `${path.join(".")}=${end}`, document: changed };
    }
  }
}
