import { readFileSync } from "node:fs";
import { fitBuild, openHarness, type Harness, type HarnessDocument } from "ohmward/harness-model";

/** Text of a file of demo-harness/. */
export function demoText(name: string): string {
  return readFileSync(new URL(`../../demo-harness/${name}`, import.meta.url), "utf8");
}

/** The demo machine, opened; throws if it has problems. */
export function openDemo(): HarnessDocument {
  const opened = openHarness(demoText("firnlark-45.ohm.json"));
  if (!opened.ok) throw new Error(opened.error.map((found) => `${found.at.path}: ${found.message}`).join("\n"));
  return opened.value.document;
}

/** The demo machine fitted in a build it has. */
export function fitDemo(document: HarnessDocument, build: string): Harness {
  const harness = fitBuild(document, build);
  if (!harness) throw new Error(`The demo machine has no build "${build}"`);
  return harness;
}
