import type { Code } from "../../harness-model/index.ts";
import { codesOfNumbers, readCodeNumbers } from "../../application/index.ts";

/** Most suggestions at once. */
const MOST = 10;

/**
 * Finds codes of the machine that fit what is typed: a diagnostic trouble code (DTC), SPN and FMI, or words of its meaning. Where the machine does not list
 * the FMI, the codes of the SPN whose circuit fails like that come first, then its others.
 *
 * @param codes Codes of the build.
 * @param text What is typed.
 * @returns The codes that fit, exact ones first; none while nothing is typed.
 */
export function suggestCodes(codes: readonly Code[], text: string): readonly Code[] {
  const typed = text.trim().toLowerCase();
  if (typed === "") return [];
  const numbers = readCodeNumbers(typed);
  const { exact = [], alike = [], ofParameter = [] } = numbers ? codesOfNumbers(codes, numbers) : {};
  const words = typed.split(/\s+/u);
  const rank = (code: Code): number => {
    if (code.id.toLowerCase() === typed) return 0;
    if (exact.includes(code)) return 1;
    if (alike.includes(code)) return 2;
    if (exact.length === 0 && ofParameter.includes(code)) return 3;
    if (code.id.toLowerCase().startsWith(typed)) return 4;
    const all = `${code.id} ${code.label} ${code.module ?? ""}`.toLowerCase();
    return words.every((word) => all.includes(word)) ? 5 : Infinity;
  };
  return codes
    .map((code) => ({ code, at: rank(code) }))
    .filter(({ at }) => at < Infinity)
    .sort((a, b) => a.at - b.at)
    .slice(0, MOST)
    .map(({ code }) => code);
}

/** What to say where the machine has the SPN typed, but no one code for its FMI: the person has to choose, if any code fits. */
export function askForCode(codes: readonly Code[], text: string): string | undefined {
  const numbers = readCodeNumbers(text);
  if (numbers?.fmi === undefined) return undefined;
  const { exact, alike, ofParameter } = codesOfNumbers(codes, numbers);
  if (exact.length > 0 || alike.length === 1 || ofParameter.length === 0) return undefined;
  return `The data of this machine has SPN ${numbers.spn}, but not with FMI ${numbers.fmi}. Choose the code with the same meaning, if there is one.`;
}

/** A code with its SPN and FMI, as it is shown. */
export function codeWords({ label, spn, fmi }: Code): string {
  return spn === undefined ? label : `${label} (SPN ${spn}${fmi === undefined ? "" : `, FMI ${fmi}`})`;
}
