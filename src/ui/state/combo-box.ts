import type { HTMLInputAttributes } from "svelte/elements";

/** What makes a text field one with suggestions under it, for those who hear the page. The list has the id of the field and `-list`. */
export function comboAttributes(
  id: string,
  { count, active }: { readonly count: number; readonly active: number },
): HTMLInputAttributes {
  return {
    id,
    role: "combobox",
    autocomplete: "off",
    autocapitalize: "off",
    spellcheck: false,
    "aria-expanded": count > 0,
    "aria-controls": `${id}-list`,
    "aria-autocomplete": "list",
    "aria-activedescendant": active >= 0 ? `${id}-${active}` : undefined,
  };
}

/** The suggestion that is marked after an arrow key; -1 is the field itself. */
export function stepActive(active: number, key: "ArrowDown" | "ArrowUp", count: number): number {
  return Math.min(count - 1, Math.max(-1, active + (key === "ArrowDown" ? 1 : -1)));
}
