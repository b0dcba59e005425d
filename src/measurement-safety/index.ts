// Floor 3: where a meter may touch: rules as data, one evaluator, cautions.
export { MAKER_FIRST, METER_PROVEN, OHMS_DEAD } from "./cautions.ts";
export { evaluateRules } from "./evaluate-rules.ts";
export type { ProbeFindings, ProbePoint } from "./findings.ts";
export { readGuardedName } from "./guarded-names.ts";
export { findProbePoints, type ProbeOptions } from "./find-probe-points.ts";
export { guardsOf, isGuarded } from "./safety-index.ts";
export { METER_NAMES, methodName } from "./method-names.ts";
export { isContactPermitted } from "./is-contact-permitted.ts";
export { METHODS, type ContactFacts, type Meter, type Method, type PlaceKind, type Rule, type When } from "./rule.ts";
export { accessOf, isReachableIn } from "./reaching.ts";
export { RULES } from "./rules.ts";
