import type { HarnessDocument } from "ohmward/harness-model";
import { fitBuild, openHarness, type Harness } from "ohmward/harness-model";
import { fitDemo, openDemo } from "../../demo-harness/open-demo.ts";
import { harnessText } from "../../generate/harness-text.ts";

/** The demo machine's document, opened once a test file. */
export const demoDocument: HarnessDocument = openDemo();

const fitted = new Map<string, Harness>();

/** The demo machine in a build, fitted once a test file. */
export function demoIn(build: string): Harness {
  const harness = fitted.get(build) ?? fitDemo(demoDocument, build);
  fitted.set(build, harness);
  return harness;
}

/** A generated machine in its build with all options. */
export function generatedMachine(number: number, wires: number): Harness {
  const opened = openHarness(harnessText({ seed: number, wires }));
  const harness = opened.ok ? fitBuild(opened.value.document, number % 2 === 0 ? "full" : "base") : undefined;
  if (!harness) throw new Error(`Generated machine ${number} does not open`);
  return harness;
}
