/** How tables say that nothing is connected to a pin, in small letters without signs and blanks. Common practice, no source. */
const UNUSED: ReadonlySet<string> = new Set([
  "",
  "nc",
  "notconnected",
  "notused",
  "unused",
  "open",
  "empty",
  "none",
  "spare",
  "reserved",
  "nichtbelegt",
  "unbelegt",
  "frei",
  "leer",
  "nonutilisé",
  "libre",
  "sinusar",
  "nonusato",
  "libero",
  "vrij",
  "ledig",
]);

/**
 * Whether the text in a signal column says that the pin is not used: `N/C`, `not used`, `-`. Such a text is no name of a net, and two pins
 * that have it have nothing in common.
 *
 * @param text The text of the cell.
 */
export function isUnusedSignal(text: string): boolean {
  return UNUSED.has(text.toLowerCase().replace(/[^\p{L}\p{N}]/gu, ""));
}
