import type { Theme } from "./theme.svelte.ts";

/** The themes in the order a press of the button goes through them. */
export const THEMES: readonly { readonly id: Theme; readonly title: string; readonly sign: string }[] = [
  { id: "auto", title: "as the device", sign: "◐ Auto" },
  { id: "day", title: "day", sign: "○ Day" },
  { id: "night", title: "night", sign: "● Night" },
];
