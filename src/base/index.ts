// Floor 0: small tools that know nothing of wiring.
export type { Brand } from "./brand.ts";
export { editDistance } from "./edit-distance.ts";
export { faultLine } from "./fault-line.ts";
export { formatCrossSectionMm2, formatLengthMm } from "./format-length.ts";
export { formatMinutes } from "./format-minutes.ts";
export { formatNumber } from "./format-number.ts";
export { formatQuantity, type QuantityUnit } from "./format-quantity.ts";
export type { GeneratedFile } from "./generated-file.ts";
export { naturalOrder } from "./natural-order.ts";
export { err, ok, type Result } from "./result.ts";
export { safeLines } from "./safe-lines.ts";
export { safeText } from "./safe-text.ts";
export { seededRandom, type RandomState, type SeededRandom } from "./seeded-random.ts";
export { unreachable } from "./unreachable.ts";
