import type { Code } from "../../harness-model/index.ts";

/** Suspect parameter number and failure mode identifier, as read from a module. */
export interface CodeNumbers {
  readonly spn: number;
  /** Undefined where only the number of the parameter was given. */
  readonly fmi: number | undefined;
}

/**
 * What failure mode identifiers say of the circuit, in the words of the document. Identifiers about the value measured, such as 0 and 1,
 * say nothing of the circuit and are left out.
 *
 * Source: SAE J1939-73, failure mode identifiers (3 shorted high, 4 shorted low, 5 open, 6 grounded, 2 erratic, 8 and 9 abnormal rate, 13
 * out of calibration, 19 received in error).
 */
const FAILURES: ReadonlyMap<number, readonly Code["failure"][]> = new Map([
  [2, ["erratic", "implausible"]],
  [3, ["voltage-high"]],
  [4, ["voltage-low"]],
  [5, ["open"]],
  [6, ["short"]],
  [8, ["no-signal", "erratic"]],
  [9, ["no-signal"]],
  [13, ["implausible"]],
  [19, ["no-signal", "erratic"]],
]);

const NUMBERS = /^(?:spn\s*:?\s*)?(\d{1,6})(?:(?:\s*[/.,:-]\s*|\s*fmi\s*:?\s*|\s+(?:fmi\s*:?\s*)?)(\d{1,2}))?$/iu;

/**
 * Reads the two numbers of a code as typed: "SPN 520301 FMI 3", "520301/3", "520301".
 *
 * @returns The numbers; undefined if the text is something else.
 *
 * Source: SPN up to 524287 (19 bits) and FMI up to 31 (5 bits), SAE J1939-73.
 */
export function readCodeNumbers(text: string): CodeNumbers | undefined {
  const [, spn, fmi] = NUMBERS.exec(text.trim()) ?? [];
  return spn === undefined ? undefined : { spn: Number(spn), fmi: fmi === undefined ? undefined : Number(fmi) };
}

/** The codes of a parameter, by how well they fit. */
export interface CodesOfNumbers {
  /** With the same identifier, or all where none was given. */
  readonly exact: readonly Code[];
  /** Where none is exact: those whose circuit failed in the way that the identifier stands for. */
  readonly alike: readonly Code[];
  readonly ofParameter: readonly Code[];
}

/** Finds the codes that two numbers mean. */
export function codesOfNumbers(codes: readonly Code[], { spn, fmi }: CodeNumbers): CodesOfNumbers {
  const ofParameter = codes.filter((code) => code.spn === spn);
  const exact = ofParameter.filter((code) => fmi === undefined || code.fmi === fmi);
  const ways = FAILURES.get(fmi ?? -1) ?? [];
  const alike = exact.length > 0 ? [] : ofParameter.filter(({ failure }) => ways.includes(failure));
  return { exact, alike, ofParameter };
}
