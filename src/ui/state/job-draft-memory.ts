import { EMPTY_JOB, type DraftData } from "./job-draft-data.ts";

const KEY = "ohmward-job-draft";

/** The form of a machine as it was left; undefined where nothing is kept or storage is forbidden. */
export function keptDraft(machine: string): DraftData | undefined {
  try {
    const found: unknown = JSON.parse(localStorage.getItem(KEY) ?? "null");
    return isKept(found) && found.machine === machine ? { ...EMPTY_JOB, ...found.draft } : undefined;
  } catch {
    return undefined;
  }
}

/** Keeps the form on this device. */
export function keepDraft(machine: string, draft: DraftData): void {
  try {
    localStorage.setItem(KEY, JSON.stringify({ machine, draft }));
  } catch {
    // Storage may be forbidden or full; the form then lasts as long as the page.
  }
}

/** Lets the kept form go. */
export function forgetDraft(machine: string): void {
  keepDraft(machine, EMPTY_JOB);
}

function isKept(value: unknown): value is { readonly machine: string; readonly draft: DraftData } {
  if (typeof value !== "object" || value === null || !("machine" in value) || !("draft" in value)) return false;
  const { draft } = value;
  if (typeof draft !== "object" || draft === null) return false;
  // Written by this page alone; lists that are none would break the form, anything else is put right by the next change.
  return Object.entries(EMPTY_JOB).every(([name, empty]) => {
    const found: unknown = Reflect.get(draft, name);
    return found === undefined || (typeof found === typeof empty && Array.isArray(found) === Array.isArray(empty));
  });
}
