import type { HarnessDocument } from "../../harness-model/index.ts";

/** A build as it is offered: its name and its options in words. */
export interface BuildChoice {
  readonly id: string;
  readonly label: string;
  readonly options: readonly string[];
}

/** The builds of a document with their options in words. */
export function buildCards(document: HarnessDocument): readonly BuildChoice[] {
  const labels = new Map<string, string>(document.options.map((option) => [option.id, option.label]));
  return document.builds.map(({ id, label, options }) => ({
    id,
    label,
    options: options.map((option) => labels.get(option) ?? option),
  }));
}
