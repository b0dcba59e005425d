import { resolve, type Item, type Resolved } from "ohmward/connectivity";
import type { Harness } from "ohmward/harness-model";
import { fitDemo, openDemo } from "../demo-harness/open-demo.ts";

const document = openDemo();
const fitted = new Map<string, Harness>();

/** The demo machine in a build, fitted once a test file. */
export function demo(build = "base"): Harness {
  const known = fitted.get(build);
  if (known) return known;
  const harness = fitDemo(document, build);
  fitted.set(build, harness);
  return harness;
}

/** The one thing a text names; throws if it names none or several. */
export function item(harness: Harness, text: string): Resolved {
  const resolution = resolve(harness, text);
  if (resolution.kind !== "one") throw new Error(`"${text}" is ${resolution.kind}`);
  return resolution.item;
}

/** Ids of items, in order. */
export function ids(items: readonly Item[]): readonly string[] {
  return items.map((item) => item.id);
}
