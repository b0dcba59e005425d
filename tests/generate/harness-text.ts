import { generateHarness, type GenerateOptions } from "./generate-harness.ts";

/** The JSON text of a generated harness document, as a file would hold it. */
export function harnessText(options: GenerateOptions): string {
  return `${JSON.stringify(generateHarness(options))}\n`;
}
