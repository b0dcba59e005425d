/** How the page is lit: as the device says, or always one way. */
export type Theme = "auto" | "day" | "night" | "sun";

const KEY = "ohmward-theme";

function stored(): Theme {
  try {
    const value = localStorage.getItem(KEY);
    return value === "day" || value === "night" || value === "sun" ? value : "auto";
  } catch {
    // Storage may be forbidden; the theme then lasts as long as the page.
    return "auto";
  }
}

/** The theme of the page. */
export class ThemeChoice {
  value = $state<Theme>(stored());

  choose(theme: Theme): void {
    this.value = theme;
    try {
      localStorage.setItem(KEY, theme);
    } catch {
      // See above.
    }
  }
}

/** The one theme choice of the page. */
export const theme = new ThemeChoice();
