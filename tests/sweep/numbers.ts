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
