import { ok, type Result } from "../base/index.ts";
import { fitBuild, openHarness, type Harness, type HarnessDocument, type Problem } from "../harness-model/index.ts";

/** A machine that questions can be asked of: its document, and each of its builds fitted once when first wanted. */
export interface Machine {
  readonly document: HarnessDocument;
  /** What is odd about the document without keeping it from being used. */
  readonly warnings: readonly Problem[];
  /** The harness of a build; the same object at every call. Undefined where the document has no such build. */
  harness(buildId: string): Harness | undefined;
}

/**
 * Opens the text of a harness document as a machine.
 *
 * @param text The text of a `*.ohm.json` file.
 * @returns The machine, or every problem found.
 * @example
 * ```ts
 * import { openMachine } from "ohmward/application";
 * const opened = openMachine("[]");
 * expect(opened.ok ? "a machine" : opened.error[0]?.code).toBe("wrong-format");
 * ```
 */
export function openMachine(text: string): Result<Machine, readonly Problem[]> {
  const opened = openHarness(text);
  if (!opened.ok) return opened;
  return ok(machineOf(opened.value.document, opened.value.warnings));
}

/**
 * Makes a machine of a document that is checked already, such as one that an importer made.
 *
 * @param document The checked document.
 * @param warnings What its checks found odd.
 */
export function machineOf(document: HarnessDocument, warnings: readonly Problem[] = []): Machine {
  // Fitting a build of a large machine takes a second: done when it is wanted, and once.
  const fitted = new Map<string, Harness | undefined>();
  return {
    document,
    warnings,
    harness(buildId) {
      if (!fitted.has(buildId)) fitted.set(buildId, fitBuild(document, buildId));
      return fitted.get(buildId);
    },
  };
}
