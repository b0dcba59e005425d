// Floor 0: small tools that know nothing of wiring.
export { type Brand, type GeneratedFile, err, ok, type Result, unreachable } from "./result.ts";
export { defined } from "./defined.ts";
export { editDistance } from "./edit-distance.ts";
export { faultLine, safeLines, safeText } from "./safe-text.ts";
export {
  formatCrossSectionMm2,
  formatLengthMm,
  formatMinutes,
  formatNumber,
  formatQuantity,
} from "./format-quantity.ts";
export { naturalOrder } from "./natural-order.ts";
export {
  numberWays,
  type DecimalSign,
  type NumberWay,
  readUnit,
  type QuantityUnit,
  type WrittenUnit,
} from "./scan-quantity.ts";
export {
  plainNumber,
  quantityProblem,
  readQuantity,
  type QuantityQuestion,
  type QuantityReading,
  type QuantityScale,
  type QuantityWay,
} from "./read-quantity.ts";
export { seededRandom, type RandomState, type SeededRandom } from "./seeded-random.ts";
