// Floor 0: small tools that know nothing of wiring.
export type { Brand } from "./brand.ts";
export { editDistance } from "./edit-distance.ts";
export { faultLine } from "./fault-line.ts";
export type { Frozen } from "./frozen.ts";
export { formatCrossSectionMm2, formatLengthMm } from "./format-length.ts";
export { formatMinutes } from "./format-minutes.ts";
export { formatNumber } from "./format-number.ts";
export { formatQuantity } from "./format-quantity.ts";
export type { GeneratedFile } from "./generated-file.ts";
export { addTo, keptFor, keptIn } from "./kept.ts";
export { naturalOrder } from "./natural-order.ts";
export { numberWays, type DecimalSign, type NumberWay } from "./number-ways.ts";
export { plainNumber } from "./plain-number.ts";
export { quantityProblem } from "./quantity-problem.ts";
export { readUnit, type QuantityUnit, type WrittenUnit } from "./quantity-units.ts";
export {
  readQuantity,
  type QuantityQuestion,
  type QuantityReading,
  type QuantityScale,
  type QuantityWay,
} from "./read-quantity.ts";
export { err, ok, type Result } from "./result.ts";
export { safeLines } from "./safe-lines.ts";
export { safeText } from "./safe-text.ts";
export { seededRandom, type RandomState, type SeededRandom } from "./seeded-random.ts";
export { unreachable } from "./unreachable.ts";
