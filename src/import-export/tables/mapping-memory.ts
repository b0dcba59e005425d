import type { TableMapping } from "./columns.ts";

/** One mapping that a person has confirmed, kept for the next table with the same headings. */
export interface RememberedMapping {
  readonly headings: readonly string[];
  readonly mapping: TableMapping;
}

/** Confirmed mappings, newest first; plain data to be stored wherever the caller stores things. */
export type MappingMemory = readonly RememberedMapping[];

/** Most mappings that are kept. */
const MOST_KEPT = 200;

/**
 * Keeps a confirmed mapping for the next table with the same headings in the same order.
 *
 * @param memory What is kept so far; it is not changed.
 * @param headings The headings of the table.
 * @param mapping The mapping as confirmed.
 * @returns The memory with this mapping first.
 * @example
 * ```ts
 * import { recallMapping, rememberMapping, type TableMapping } from "ohmward/import-export";
 * const mapping: TableMapping = { shape: "wire", columns: [{ column: 0, field: "from" }, { column: 1, field: "to" }] };
 * const memory = rememberMapping([], ["A", "B"], mapping);
 * expect(recallMapping(memory, [" a", "B "])).toEqual(mapping);
 * expect(recallMapping(memory, ["B", "A"])).toBeUndefined();
 * ```
 */
export function rememberMapping(
  memory: MappingMemory,
  headings: readonly string[],
  mapping: TableMapping,
): MappingMemory {
  const key = keyOf(headings);
  const others = memory.filter((each) => keyOf(each.headings) !== key);
  return [{ headings: [...headings], mapping }, ...others].slice(0, MOST_KEPT);
}

/** The mapping kept for these headings; capitals and blanks do not matter. Undefined if there is none. */
export function recallMapping(memory: MappingMemory, headings: readonly string[]): TableMapping | undefined {
  const key = keyOf(headings);
  return memory.find((each) => keyOf(each.headings) === key)?.mapping;
}

function keyOf(headings: readonly string[]): string {
  return JSON.stringify(headings.map((heading) => heading.trim().toLowerCase()));
}
