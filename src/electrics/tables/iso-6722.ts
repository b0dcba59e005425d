import type { CableRow } from "./sourced.ts";

/** Rows as [mm2, milliohm per metre, confidence, source]. */
const rows: readonly (readonly [number, number, CableRow["confidence"], string])[] = [
  [0.13, 136, "medium", "from memory; 133 at 100 % IACS"],
  [0.22, 84.4, "high", "cable makers' tables that quote ISO 6722"],
  [0.35, 54.4, "high", "cable makers' tables that quote ISO 6722 (2002, 2006); later editions 52.0 from memory"],
  [0.5, 37.1, "high", "cable makers' tables that quote ISO 6722"],
  [0.75, 24.7, "high", "cable makers' tables that quote ISO 6722"],
  [1, 18.5, "high", "cable makers' tables that quote ISO 6722"],
  [1.25, 14.9, "medium", "from memory"],
  [1.5, 12.7, "high", "cable makers' tables that quote ISO 6722"],
  [2, 9.42, "high", "cable makers' tables that quote ISO 6722; one prints 9.40"],
  [2.5, 7.6, "high", "cable makers' tables that quote ISO 6722"],
  [3, 6.15, "high", "cable makers' tables that quote ISO 6722"],
  [4, 4.71, "high", "cable makers' tables that quote ISO 6722"],
  [5, 3.94, "medium", "from memory"],
  [6, 3.14, "high", "cable makers' tables that quote ISO 6722"],
  [8, 2.38, "medium", "from memory"],
  [10, 1.82, "high", "cable makers' tables that quote ISO 6722"],
  [12, 1.52, "medium", "from memory"],
  [16, 1.16, "high", "cable makers' tables that quote ISO 6722"],
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
];

/**
 * Road-vehicle single-core cable, plain copper: most resistance at 20 C. A good cable reads 0 to 8 % less. The standard itself was
 * not at hand; each row says where its figure was read.
 *
 * Source: ISO 6722 / ISO 6722-1 / ISO 19642-3 as quoted by the pages each row names.
 */
export const ISO_6722: readonly CableRow[] = rows.map(([crossSectionMm2, milliohmPerMetre, confidence, source]) => ({
  crossSectionMm2,
  milliohmPerMetre,
  confidence,
  source,
}));
