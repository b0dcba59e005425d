import type { Code } from "../../model/index.ts";

/** "SPN 520301 FMI 3", "520301/3", "520301.3": what a person may type in place of the name of a code. */
const SPN_FMI = /^(?:spn\s*:?\s*)?(\d{1,6})(?:\s*[,/.\-:]?\s*(?:fmi\s*:?\s*)?(\d{1,2}))?$/iu;

/** Most suggestions at once. */
const MOST = 10;

/**
 * Finds codes of the machine that fit what is typed: a trouble code, SPN and FMI, or words of its meaning.
 *
 * @param codes Codes of the build.
 * @param text What is typed.
 * @returns The codes that fit, exact ones first; none while nothing is typed.
 *
 * Source: SPN up to 524287 (19 bits) and FMI up to 31 (5 bits), SAE J1939-73.
 */
export function suggestCodes(codes: readonly Code[], text: string): readonly Code[] {
  const typed = text.trim().toLowerCase();
  if (typed === "") return [];
  const [, spn, fmi] = SPN_FMI.exec(typed) ?? [];
  const words = typed.split(/\s+/u);
  const rank = (code: Code): number => {
    if (code.id.toLowerCase() === typed) return 0;
    if (spn !== undefined && code.spn === Number(spn) && (fmi === undefined || code.fmi === Number(fmi))) return 1;
    if (code.id.toLowerCase().startsWith(typed)) return 2;
    const all = `${code.id} ${code.label} ${code.module ?? ""}`.toLowerCase();
    return words.every((word) => all.includes(word)) ? 3 : Infinity;
  };
  return codes
    .map((code) => ({ code, at: rank(code) }))
    .filter(({ at }) => at < Infinity)
    .sort((a, b) => a.at - b.at)
    .slice(0, MOST)
    .map(({ code }) => code);
}

/** A code with its SPN and FMI, as it is shown. */
export function codeWords({ label, spn, fmi }: Code): string {
  return spn === undefined ? label : `${label} (SPN ${spn}${fmi === undefined ? "" : `, FMI ${fmi}`})`;
}
