import { copperFactor, COPPER_OHM_MM2_PER_METRE } from "./copper.ts";
import { IEC_60228_CLASS_5 } from "./iec-60228-class-5.ts";
import { ISO_6722 } from "./iso-6722.ts";
import type { CableRow, Sourced } from "./sourced.ts";

/** Which table turns size and length into ohms. */
export type WireStandard = "iec-60228-class-5" | "iso-6722" | "awg-solid";

/** A wire as far as it is known. */
export interface WireQuestion {
  readonly standard: WireStandard;
  readonly crossSectionMm2: number | undefined;
  readonly lengthMm: number | undefined;
  readonly temperatureC: number;
}

/** Resistance of a wire, or what is missing to tell it. */
export type WireAnswer =
  | ({ readonly kind: "known"; readonly ohm: number; readonly isListed: boolean } & Sourced)
  | { readonly kind: "unknown"; readonly missing: readonly ("cross-section" | "length")[] };

/**
 * Resistance of a copper wire from its size and length. A size the table does not list takes resistance times area from the listed
 * size nearest to it in proportion.
 *
 * @param question Table, size in mm2, length in mm, temperature in degrees C.
 * @returns Ohm with its source, or what is missing.
 * @example
 * ```ts
 * import { wireResistance } from "ohmward/electrics";
 * const wire = { crossSectionMm2: 0.5, lengthMm: 5000, temperatureC: 20 };
 * const road = wireResistance({ ...wire, standard: "iso-6722" });
 * const flexible = wireResistance({ ...wire, standard: "iec-60228-class-5" });
 * if (road.kind === "unknown" || flexible.kind === "unknown") throw new Error("size and length are given");
 * expect(road.ohm).toBeCloseTo(0.1855, 10);
 * expect(flexible.ohm).toBeCloseTo(0.195, 10);
 * ```
 */
export function wireResistance(question: WireQuestion): WireAnswer {
  const { standard, crossSectionMm2, lengthMm, temperatureC } = question;
  if (crossSectionMm2 === undefined || lengthMm === undefined) {
    const missing: ("cross-section" | "length")[] = crossSectionMm2 === undefined ? ["cross-section"] : [];
    return { kind: "unknown", missing: lengthMm === undefined ? [...missing, "length"] : missing };
  }
  const metres = lengthMm / 1000;
  const factor = copperFactor(temperatureC);
  if (standard === "awg-solid") {
    const source = "resistivity of copper over area, as for solid AWG sizes";
    const ohm = (COPPER_OHM_MM2_PER_METRE / crossSectionMm2) * metres * factor;
    return { kind: "known", ohm, isListed: true, source, confidence: "high" };
  }
  const row = nearestRow(standard === "iso-6722" ? ISO_6722 : IEC_60228_CLASS_5, crossSectionMm2);
  const isListed = row.crossSectionMm2 === crossSectionMm2;
  const name = standard === "iso-6722" ? "ISO 6722" : "IEC 60228 class 5";
  const perMetre = (row.milliohmPerMetre * row.crossSectionMm2) / crossSectionMm2 / 1000;
  return {
    kind: "known",
    ohm: perMetre * metres * factor,
    isListed,
    source: isListed ? `${name}: ${row.source}` : `${name}, scaled from ${row.crossSectionMm2} mm2`,
    confidence: isListed ? row.confidence : "medium",
  };
}

function nearestRow(rows: readonly CableRow[], crossSectionMm2: number): CableRow {
  const distance = (row: CableRow): number => Math.abs(Math.log(row.crossSectionMm2 / crossSectionMm2));
  return rows.reduce((best, row) => (distance(row) < distance(best) ? row : best));
}
