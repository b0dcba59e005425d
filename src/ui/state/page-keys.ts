import type { AppState } from "./app.svelte.ts";

/** Keys that work anywhere on the page while no field has the focus. They are listed in the help. */
export function pageKeys(event: KeyboardEvent, app: AppState): void {
  if (event.key === "Escape") {
    if (app.picking) app.picking = undefined;
    return;
  }
  if (event.ctrlKey || event.metaKey || event.altKey || isTyping(event.target)) return;
  if (event.key === "/") {
    event.preventDefault();
    document.querySelector<HTMLInputElement>("[data-search]")?.focus();
  } else if (event.key === "?") {
    document.querySelector<HTMLButtonElement>("[data-help]")?.click();
  }
}

function isTyping(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && target.closest("input, select, textarea, dialog") !== null;
}
