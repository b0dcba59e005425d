import type { MappingMemory } from "../../import-export/index.ts";

const KEY = "ohmward-table-mappings";

/** The mappings that were confirmed on this device; none where storage is forbidden or holds something else. */
export function storedMappings(): MappingMemory {
  try {
    const found: unknown = JSON.parse(localStorage.getItem(KEY) ?? "[]");
    return Array.isArray(found) ? found.filter(isRemembered) : [];
  } catch {
    return [];
  }
}

/** Keeps mappings on this device, for the next table with the same headings. */
export function storeMappings(memory: MappingMemory): void {
  try {
    localStorage.setItem(KEY, JSON.stringify(memory));
  } catch {
    // Storage may be forbidden or full; the mapping is then proposed again the next time.
  }
}

function isRemembered(value: unknown): value is MappingMemory[number] {
  if (typeof value !== "object" || value === null || !("headings" in value) || !("mapping" in value)) return false;
  const { headings, mapping } = value;
  if (!Array.isArray(headings) || !headings.every((heading) => typeof heading === "string")) return false;
  if (typeof mapping !== "object" || mapping === null || !("columns" in mapping) || !("shape" in mapping)) return false;
  const isShape = mapping.shape === "pin" || mapping.shape === "wire";
  return isShape && Array.isArray(mapping.columns) && mapping.columns.every(isColumn);
}

function isColumn(value: unknown): boolean {
  if (typeof value !== "object" || value === null || !("column" in value) || !("field" in value)) return false;
  return typeof value.column === "number" && typeof value.field === "string";
}
