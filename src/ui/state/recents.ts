import type { Item } from "../../connectivity/index.ts";

const KEY = "ohmward-recents";
/** Most items that are kept of a machine, and most machines. */
const MOST = { items: 20, machines: 12 };

interface Kept {
  readonly machine: string;
  readonly items: readonly Item[];
}

/**
 * The items of a machine that were asked about last, newest first; kept on this device only.
 *
 * @param machine The mark of the machine.
 */
export function recentItems(machine: string): readonly Item[] {
  return kept().find((each) => each.machine === machine)?.items ?? [];
}

/** Puts an item at the head of those asked about last. */
export function keepRecent(machine: string, { type, id }: Item): void {
  const others = recentItems(machine).filter((item) => item.type !== type || item.id !== id);
  const items = [{ type, id }, ...others].slice(0, MOST.items);
  write([{ machine, items }, ...kept().filter((each) => each.machine !== machine)].slice(0, MOST.machines));
}

/** Lets go of what was asked about of a machine. */
export function clearRecents(machine: string): void {
  write(kept().filter((each) => each.machine !== machine));
}

function kept(): readonly Kept[] {
  try {
    const found: unknown = JSON.parse(localStorage.getItem(KEY) ?? "[]");
    return Array.isArray(found) ? found.filter(isKept) : [];
  } catch {
    // Storage may be forbidden; nothing is kept then.
    return [];
  }
}

function write(all: readonly Kept[]): void {
  try {
    localStorage.setItem(KEY, JSON.stringify(all));
  } catch {
    // See above.
  }
}

function isKept(value: unknown): value is Kept {
  if (typeof value !== "object" || value === null || !("machine" in value) || !("items" in value)) return false;
  return typeof value.machine === "string" && Array.isArray(value.items) && value.items.every(isItem);
}

function isItem(value: unknown): boolean {
  if (typeof value !== "object" || value === null || !("type" in value) || !("id" in value)) return false;
  return typeof value.type === "string" && typeof value.id === "string";
}
