import type { ReadOptions } from "../../format-reader.ts";
import type { HarnessDraft } from "../../draft/harness-draft.ts";
import type { ChosenBuild, WantedBuild } from "./choose-builds.ts";
import type { ColourScheme } from "../../tables/read-colour-text.ts";
import type { ColourCodes } from "./colour-scheme.ts";
import type { FittedWith, HarnessSource, SourceConnector, SourceThing } from "./harness-source.ts";
import { isFittedWith, unionOf, type OptionKeys, type SourceIndex } from "./fitted.ts";
import { importProblem } from "../../import-problem.ts";

/** What the readers of harness files are told beside what every reader is told. */
export interface HarnessReadOptions extends ReadOptions {
  /** Colour codes of the file; absent means that they are worked out. */
  readonly colours?: ColourScheme;
  /** Builds to make, by the options of the file; absent means those of the file. */
  readonly builds?: readonly WantedBuild[];
}

/** Where a connector of the source went in the document. */
export type PlacedConnector =
  | { readonly kind: "connector"; readonly id: string }
  | { readonly kind: "splice"; readonly id: string }
  | { readonly kind: "stud"; readonly id: string };

/** A harness being put together: the source, the draft that is filled, and what things of the source became. */
export interface Assembly {
  readonly source: HarnessSource;
  readonly index: SourceIndex;
  readonly draft: HarnessDraft;
  readonly builds: readonly ChosenBuild[];
  readonly codes: ColourCodes;
  readonly options: Map<string, string>;
  readonly places: Map<string, string>;
  readonly segments: Map<string, string>;
  readonly boxes: Map<string, string>;
  readonly connectors: Map<string, PlacedConnector>;
}

/** Longest option expression a document takes, in characters. */
const MOST_WHEN = 600;

/** The option expression of what a thing is fitted with, ready to be spread into it. */
export function whenOf(assembly: Assembly, thing: SourceThing, fitted: FittedWith): { readonly when?: string } {
  if (fitted === undefined) return {};
  const ids = [...fitted].map((key) => assembly.options.get(key)).filter((id) => id !== undefined);
  // Fitted with options that are not in the file: with none that can be chosen, yet not always.
  if (ids.length === 0) return fitted.size === 0 ? {} : { when: neverFitted(assembly) };
  const when = ids.join(" | ");
  if (when.length <= MOST_WHEN) return { when };
  assembly.draft.report(importProblem("options-too-many", thing.at, { thing: thing.name, options: ids.length }));
  return {};
}

function neverFitted(assembly: Assembly): string {
  const key = "option that is not in the file";
  const known = assembly.options.get(key);
  if (known !== undefined) return known;
  const id = assembly.draft.addOption({ id: "not-in-file", label: "Fitted with options that the file does not list" });
  assembly.options.set(key, id);
  return id;
}

/** What a connector is fitted with: what the file says and whatever its wires are fitted with. */
export function connectorFitted(assembly: Assembly, connector: SourceConnector): FittedWith {
  const wires = wiresOf(assembly, connector).map((wire) => wire.fitted);
  if (connector.fitted === undefined) return wires.length > 0 ? unionOf(wires) : undefined;
  return unionOf([connector.fitted, ...wires]);
}

/** Wires at a connector, once for each end there. */
export function wiresOf({ index }: Assembly, connector: SourceConnector) {
  const contacts = index.contactsOf.get(connector.key) ?? [];
  return contacts.flatMap((contact) => index.wiresAt.get(contact.key) ?? []);
}

/** Of things that may be fitted, how many are at once in the build that has most, and in the one that has fewest but not none. */
export function countFitted(
  parts: readonly FittedWith[],
  builds: readonly { readonly keys: OptionKeys }[],
): { readonly most: number; readonly fewest: number } {
  let most = 0;
  let fewest = Infinity;
  for (const build of builds) {
    const count = parts.filter((part) => isFittedWith(part, build.keys)).length;
    most = Math.max(most, count);
    if (count > 0) fewest = Math.min(fewest, count);
  }
  return { most, fewest };
}
