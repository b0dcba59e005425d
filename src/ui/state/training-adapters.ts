import type { Harness } from "../../harness-model/index.ts";
import type { Item } from "../../connectivity/index.ts";

/** An adapter that fits somewhere. */
export interface FittingAdapter {
  readonly id: string;
  readonly label: string;
  /** What it sits on, as the document names it. */
  readonly at: string;
}

/** The adapters of the document for a connector, a part inside or a component. */
export function adaptersFor(harness: Harness, { type, id }: Item): readonly FittingAdapter[] {
  return harness.document.adapters.flatMap((adapter) => {
    const at = adapter.fits.find((place) => place === id || (type === "component" && isPartOf(place, id)));
    return at === undefined ? [] : [{ id: adapter.id, label: adapter.label, at }];
  });
}

/** What is fitted, told apart again: `adapter at place`. */
export function fittedParts(fitted: readonly string[]): readonly { readonly adapter: string; readonly at: string }[] {
  return fitted.map((text) => {
    const [adapter = "", at = ""] = text.split(" at ");
    return { adapter, at };
  });
}

function isPartOf(place: string, component: string): boolean {
  return place.startsWith(`${component}.`);
}
