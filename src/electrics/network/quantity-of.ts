import type { PartDraft } from "./part-draft.ts";
import type { Surroundings } from "./surroundings.ts";

/** Value of a quantity of the situation, or what stands in for one that is not given. */
export function quantityOf(
  draft: PartDraft,
  around: Surroundings,
  asked: { readonly name: string; readonly key: string; readonly instead: number },
): number {
  const value = around.quantities.get(asked.name);
  if (value === undefined)
    draft.assume("missing", asked.key, `${asked.key}: ${asked.name} not given, taken as ${asked.instead}`);
  return value ?? asked.instead;
}
