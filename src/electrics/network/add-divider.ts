import type { Element } from "../../model/index.ts";
import { SENSOR_SUPPLY_VOLT } from "../tables/typical-parts.ts";
import { valueAt } from "../tables/value-at.ts";
import type { PlacedElement } from "./placed-element.ts";
import type { PartDraft } from "./part-draft.ts";
import { quantityOf } from "./quantity-of.ts";
import type { Surroundings } from "./surroundings.ts";

/** Source resistance of a signal where the document says 0, in ohm. Typical, common practice, no source. */
const LEAST_SOURCE_OHM = 10;

/** The two resistances of a divider in ohm; Infinity where one is not there. */
export interface DividerOhms {
  readonly topOhm: number;
  readonly bottomOhm: number;
}

/**
 * Two resistances that give a ratio and have a source resistance: source / ratio on top, source / (1 - ratio) at the bottom.
 *
 * @param ratio Tap over supply, 0 to 1.
 * @param sourceOhm Resistance seen at the tap.
 */
export function dividerOhms(ratio: number, sourceOhm: number): DividerOhms {
  const share = Math.min(1, Math.max(0, ratio));
  return { topOhm: sourceOhm / share, bottomOhm: sourceOhm / (1 - share) };
}

/** Adds one edge of a divider, and with its bottom edge what the sensor draws for itself. */
export function addDivider(
  draft: PartDraft,
  around: Surroundings,
  placed: PlacedElement & { readonly element: Extract<Element, { kind: "divider" }> },
): void {
  const { key, edgeKey, element, from, to, top } = placed;
  const instead = element.ratio[0]?.[0] ?? 0;
  const input = quantityOf(draft, around, { name: element.quantity, key, instead });
  const { topOhm, bottomOhm } = dividerOhms(valueAt(element.ratio, input), element.sourceOhm || LEAST_SOURCE_OHM);
  const isTop = edgeKey.endsWith(".top");
  draft.add(from, to, { key: edgeKey, owner: key, group: "sensor", ohm: isTop ? topOhm : bottomOhm });
  if (isTop || element.supplyAmpere === undefined) return;
  const rest = element.supplyAmpere - SENSOR_SUPPLY_VOLT / (topOhm + bottomOhm);
  if (rest <= 0) return;
  draft.add(top, to, { key: `${key}|supply`, owner: key, group: "load", ohm: SENSOR_SUPPLY_VOLT / rest });
}
