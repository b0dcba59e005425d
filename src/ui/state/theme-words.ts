import type { Theme } from "./theme.svelte.ts";

/** The themes in the order a press of the button goes through them. */
export const THEMES: readonly { readonly id: Theme; readonly title: string; readonly sign: string }[] = [
  { id: "auto", title: "Auto", sign: "◐" },
  { id: "day", title: "Day", sign: "○" },
  { id: "night", title: "Night", sign: "●" },
  { id: "sun", title: "Sun", sign: "☀" },
];
