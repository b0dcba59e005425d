/** Names of the colours that a diagram takes from the page. */
export type Token = "ink" | "ink-3" | "paper" | "surface-2" | "accent" | "on-accent" | "mark";

/** A theme that a written diagram can have by itself. */
export type DiagramTheme = "light" | "dark" | "sun" | "print";

/**
 * The colours of a diagram that stands by itself; on a page those of the page hold. Wires have their own colours in every theme.
 *
 * Contrast of text to paper: 15 to 21 : 1 for `ink`, at least 5 : 1 for `ink-3` (formula of WCAG 2.2).
 */
export const TOKENS: Readonly<Record<DiagramTheme, Readonly<Record<Token, string>>>> = {
  light: {
    ink: "#0f191d",
    "ink-3": "#56656c",
    paper: "#fcfdfc",
    "surface-2": "#f0f4f4",
    accent: "#075a68",
    "on-accent": "#ffffff",
    mark: "#ffdb3dd9",
  },
  dark: {
    ink: "#f2f6f7",
    "ink-3": "#9dacb2",
    paper: "#10171a",
    "surface-2": "#1a2327",
    accent: "#79d5e3",
    "on-accent": "#04252b",
    mark: "#ffd84a6b",
  },
  sun: {
    ink: "#000000",
    "ink-3": "#2b363b",
    paper: "#ffffff",
    "surface-2": "#ffffff",
    accent: "#003f4a",
    "on-accent": "#ffffff",
    mark: "#ffd000",
  },
  print: {
    ink: "#000000",
    "ink-3": "#2b2b2b",
    paper: "#ffffff",
    "surface-2": "#ffffff",
    accent: "#000000",
    "on-accent": "#ffffff",
    mark: "#d9d9d9",
  },
};
