/** Why the browser did not store something, in its own words where it has any. */
export function refusalWords(fault: unknown): string {
  return fault instanceof Error && fault.message !== "" ? fault.message : "the browser refused";
}
