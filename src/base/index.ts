// Floor 0: small tools that know nothing of wiring.
export type { Brand } from "./brand.ts";
export type { Frozen } from "./frozen.ts";
export type { GeneratedFile } from "./generated-file.ts";
export { renameJson, wordsOf, type JsonRenames } from "./rename-json.ts";
export { addTo, keptFor, keptIn } from "./kept.ts";
export { err, ok, type Result } from "./result.ts";
export { unreachable } from "./unreachable.ts";
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
export { numberWays, readUnit, type DecimalSign, type QuantityUnit } from "./scan-quantity.ts";
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
