// Floor 3: where a meter may touch: rules as data, one evaluator, cautions.
export { MAKER_FIRST, METER_PROVEN, OHMS_DEAD } from "./caution-texts.ts";
export { evaluateRules, type Verdict } from "./evaluate-rules.ts";
export type { ProbeFindings, ProbePoint, ProbeRefusal, Refused, Relation } from "./findings.ts";
export { readGuardedName, type GuardedKind, type GuardedName } from "./guarded-names.ts";
export { findProbePoints, type ProbeOptions } from "./find-probe-points.ts";
export type { Guard } from "./find-guards.ts";
export { guardsOf, isGuarded } from "./guards-of.ts";
export { isContactPermitted, type ContactAnswer, type WantedContact } from "./is-contact-permitted.ts";
export { METHODS, type Meter, type Method, type MethodTraits, type PlaceKind, type ProbeClass } from "./method.ts";
export { accessOf, isReachableIn } from "./reaching.ts";
export type { ProbeTarget } from "./asked.ts";
export type { ContactFacts, HazardKind, Rule, StateCondition, When } from "./rule.ts";
export { RULES } from "./rules.ts";
