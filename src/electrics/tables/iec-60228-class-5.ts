import type { CableRow } from "./sourced.ts";

/** Rows as [mm2, milliohm per metre, confidence, source]. */
const rows: readonly (readonly [number, number, CableRow["confidence"], string])[] = [
  [0.5, 39.0, "high", "four agreeing cable tables that quote IEC 60228"],
  [0.75, 26.0, "high", "four agreeing cable tables that quote IEC 60228"],
  [1, 19.5, "high", "four agreeing cable tables that quote IEC 60228"],
  [1.5, 13.3, "high", "four agreeing cable tables that quote IEC 60228"],
  [2.5, 7.98, "high", "four agreeing cable tables that quote IEC 60228"],
  [4, 4.95, "high", "four agreeing cable tables that quote IEC 60228"],
  [6, 3.3, "high", "four agreeing cable tables that quote IEC 60228"],
  [10, 1.91, "high", "four agreeing cable tables that quote IEC 60228"],
  [16, 1.21, "high", "four agreeing cable tables that quote IEC 60228"],
  [25, 0.78, "high", "four agreeing cable tables that quote IEC 60228"],
  [35, 0.554, "high", "four agreeing cable tables that quote IEC 60228"],
  [50, 0.386, "high", "four agreeing cable tables that quote IEC 60228"],
  [70, 0.272, "high", "four agreeing cable tables that quote IEC 60228"],
  [95, 0.206, "high", "four agreeing cable tables that quote IEC 60228"],
  [120, 0.161, "high", "four agreeing cable tables that quote IEC 60228"],
];

/**
 * Flexible plain copper conductor, class 5: most resistance at 20 C. About 1.05 times the ISO 6722 limit of the same size, so the two
 * tables are never mixed.
 *
 * Source: IEC 60228 as quoted by four agreeing cable tables.
 */
export const IEC_60228_CLASS_5: readonly CableRow[] = rows.map(
  ([crossSectionMm2, milliohmPerMetre, confidence, source]) => ({
    crossSectionMm2,
    milliohmPerMetre,
    confidence,
    source,
  }),
);
