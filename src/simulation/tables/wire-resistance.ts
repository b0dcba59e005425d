/**
 * Resistivity of annealed copper at 20 C, ohm mm2 per metre (100 % IACS).
 *
 * Source: 0.15328 ohm g/m2 at 8.89 g/cm3, NBS Circular 31 (1914) and NBS Handbook 100 (1966), as quoted.
 */
export const COPPER_OHM_MM2_PER_METRE = 0.15328 / 8.89;

/**
 * Change of the resistance of copper per kelvin, counted from 20 C.
 *
 * Source: 0.00393 /K for 100 % IACS, NBS Handbook 100 (from memory; the factors it gives agree with published ones).
 */
export const COPPER_PER_KELVIN = 0.00393;

/**
 * How many times the resistance at 20 C copper has at another temperature.
 *
 * @param temperatureC Temperature in degrees C, -80 to 200.
 * @returns 1 at 20 C, 1.255 at 85 C.
 * @example
 * ```ts
 * import { copperFactor } from "ohmward/simulation";
 * expect(copperFactor(20)).toBe(1);
 * expect(copperFactor(85)).toBeCloseTo(1.255, 3);
 * ```
 */
export function copperFactor(temperatureC: number): number {
  return 1 + COPPER_PER_KELVIN * (temperatureC - 20);
}

const QUOTED_IEC = "four agreeing cable tables that quote IEC 60228";

/**
 * Flexible plain copper conductor, class 5: most resistance at 20 C. About 1.05 times the ISO 6722 limit of the same size, so the two
 * tables are never mixed.
 *
 * Source: IEC 60228 as quoted by four agreeing cable tables.
 */
export const IEC_60228_CLASS_5 = cableRows([
  [0.5, 39.0, "high", QUOTED_IEC],
  [0.75, 26.0, "high", QUOTED_IEC],
  [1, 19.5, "high", QUOTED_IEC],
  [1.5, 13.3, "high", QUOTED_IEC],
  [2.5, 7.98, "high", QUOTED_IEC],
  [4, 4.95, "high", QUOTED_IEC],
  [6, 3.3, "high", QUOTED_IEC],
  [10, 1.91, "high", QUOTED_IEC],
  [16, 1.21, "high", QUOTED_IEC],
  [25, 0.78, "high", QUOTED_IEC],
  [35, 0.554, "high", QUOTED_IEC],
  [50, 0.386, "high", QUOTED_IEC],
  [70, 0.272, "high", QUOTED_IEC],
  [95, 0.206, "high", QUOTED_IEC],
  [120, 0.161, "high", QUOTED_IEC],
]);

const QUOTED_ISO = "cable makers' tables that quote ISO 6722";

/**
 * Road-vehicle single-core cable, plain copper: most resistance at 20 C. A good cable reads 0 to 8 % less. The standard itself was
 * not at hand; each row says where its figure was read.
 *
 * Source: ISO 6722 / ISO 6722-1 / ISO 19642-3 as quoted by the pages each row names.
 */
export const ISO_6722 = cableRows([
  [0.13, 136, "medium", "from memory; 133 at 100 % IACS"],
  [0.22, 84.4, "high", QUOTED_ISO],
  [0.35, 54.4, "high", "cable makers' tables that quote ISO 6722 (2002, 2006); later editions 52.0 from memory"],
  [0.5, 37.1, "high", QUOTED_ISO],
  [0.75, 24.7, "high", QUOTED_ISO],
  [1, 18.5, "high", QUOTED_ISO],
  [1.25, 14.9, "medium", "from memory"],
  [1.5, 12.7, "high", QUOTED_ISO],
  [2, 9.42, "high", "cable makers' tables that quote ISO 6722; one prints 9.40"],
  [2.5, 7.6, "high", QUOTED_ISO],
  [3, 6.15, "high", QUOTED_ISO],
  [4, 4.71, "high", QUOTED_ISO],
  [5, 3.94, "medium", "from memory"],
  [6, 3.14, "high", QUOTED_ISO],
  [8, 2.38, "medium", "from memory"],
  [10, 1.82, "high", QUOTED_ISO],
  [12, 1.52, "medium", "from memory"],
  [16, 1.16, "high", QUOTED_ISO],
  [20, 0.955, "medium", "from memory"],
  [25, 0.743, "medium", "from memory; IEC 60228 class 5 over 1.05"],
  [30, 0.647, "medium", "from memory"],
  [35, 0.527, "medium", "from memory; IEC 60228 class 5 over 1.05"],
  [40, 0.473, "medium", "from memory"],
  [50, 0.368, "medium", "from memory; IEC 60228 class 5 over 1.05"],
  [60, 0.315, "medium", "from memory"],
  [70, 0.259, "medium", "from memory; IEC 60228 class 5 over 1.05"],
  [95, 0.196, "medium", "from memory; IEC 60228 class 5 over 1.05"],
  [120, 0.153, "medium", "from memory; IEC 60228 class 5 over 1.05"],
]);

/** Rows from [mm2, milliohm per metre, confidence, source]. */
function cableRows(rows: readonly (readonly [number, number, Confidence, string])[]): readonly CableRow[] {
  return rows.map(([crossSectionMm2, milliohmPerMetre, confidence, source]) => {
    return { crossSectionMm2, milliohmPerMetre, confidence, source };
  });
}

/** Which table turns size and length into ohms. */
type WireStandard = "iec-60228-class-5" | "iso-6722" | "awg-solid";

/** A wire as far as it is known. */
interface WireQuestion {
  readonly standard: WireStandard;
  readonly crossSectionMm2: number | undefined;
  readonly lengthMm: number | undefined;
  readonly temperatureC: number;
}

/** Resistance of a wire, or what is missing to tell it. */
type WireAnswer =
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
 * import { wireResistance } from "ohmward/simulation";
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

/** How far a figure can be trusted: `high` two agreeing sources or one and a calculation; `medium` one source, or memory that a calculation supports; `low` memory or a weak page. */
type Confidence = "high" | "medium" | "low";

/** Where a figure comes from. */
export interface Sourced {
  readonly source: string;
  readonly confidence: Confidence;
}

/** One row of a cable table: most resistance a new conductor of this size may have at 20 C. */
interface CableRow extends Sourced {
  readonly crossSectionMm2: number;
  /** Milliohm per metre, which is ohm per kilometre. */
  readonly milliohmPerMetre: number;
}
