import {
  askPath,
  askExpectedReading,
  askFind,
  askTestPoints,
  askCommon,
  askCircuit,
  askEffect,
  resolveContext,
  type PathAnswer,
  type ChooseAnswer,
  type ExpectedReadingAnswer,
  type ExpectQuestion,
  type FindAnswer,
  type Machine,
  type MarkedText,
  type NoPathAnswer,
  type OpenSetting,
  type TestPointsAnswer,
  type Question,
  type MachineContext,
  type CommonAnswer,
  type CircuitAnswer,
  type UnresolvedAnswer,
  type OpenEffectAnswer,
  type WrongQuestionAnswer,
} from "../application/index.ts";

/** Two points, as typed, and how far the path may go: `conductors`, `series`, `circuit` or `control-units`, the default. */
export type PathQuestion = Omit<Extract<Question, { kind: "path" }>, "kind">;

/** Where the leads go, what is measured, and what differs from the machine as its document and state have it. */
export type ExpectedReadingQuestion = Omit<ExpectQuestion, "kind">;

/**
 * Finds connectors, pins, wires, splices, parts, nets and codes by words, best first.
 *
 * @param machine The machine.
 * @param text An address, an id, a signal, a colour or words of a label.
 * @param where Variant (build) and state; see {@link OpenSetting}.
 * @returns At most 20 hits; or the variants or states to choose from.
 */
export function find(machine: Machine, text: string, where: OpenSetting = {}): FindAnswer | ChooseAnswer {
  return inContext(machine, where, (context) => askFind(context, { kind: "find", text }));
}

/**
 * The path between two points: every wire, contact, splice and part in order, what lies on every path, and where the wires run.
 * Lengths are in mm, conductor sizes in mm².
 *
 * @param machine The machine.
 * @param question Both ends, as addresses, ids or words that fit one item only.
 * @param where Variant (build) and state; see {@link OpenSetting}.
 * @returns The path; or why there is none and where it is cut; or why a name fits no single item; or what to choose from.
 */
export function path(
  machine: Machine,
  question: PathQuestion,
  where: OpenSetting = {},
): PathAnswer | NoPathAnswer | UnresolvedAnswer | ChooseAnswer {
  return inContext(machine, where, (context) => askPath(context, { kind: "path", ...question }));
}

/**
 * The circuit at a point: its net, the loads it serves, their supply side and ground side, fuses and switches.
 *
 * @param machine The machine.
 * @param point An address, an id or words that fit one item only.
 * @param where Variant (build) and state; see {@link OpenSetting}.
 * @returns The circuit; or why the name fits no single item; or what to choose from.
 */
export function circuit(
  machine: Machine,
  point: string,
  where: OpenSetting = {},
): CircuitAnswer | UnresolvedAnswer | ChooseAnswer {
  return inContext(machine, where, (context) => askCircuit(context, { kind: "circuit", point }));
}

/**
 * Common wiring: what the circuits of several items have in common, the likeliest common cause first.
 *
 * @param machine The machine.
 * @param items Two or more items, each marked `bad` (fails), `good` (works) or `unknown`.
 * @param where Variant (build) and state; see {@link OpenSetting}.
 * @returns The common items; or why a name fits no single item; or what to choose from.
 */
export function common(
  machine: Machine,
  items: readonly MarkedText[],
  where: OpenSetting = {},
): CommonAnswer | UnresolvedAnswer | ChooseAnswer {
  return inContext(machine, where, (context) => askCommon(context, { kind: "common", items: items }));
}

/**
 * The effect of an open circuit: what stops if an item opens or is disconnected, and what is still supplied.
 *
 * @param machine The machine.
 * @param item An address, an id or words that fit one item only.
 * @param where Variant (build) and state; see {@link OpenSetting}.
 * @returns The effect; or why the name fits no single item; or what to choose from.
 */
export function openEffect(
  machine: Machine,
  item: string,
  where: OpenSetting = {},
): OpenEffectAnswer | UnresolvedAnswer | ChooseAnswer {
  return inContext(machine, where, (context) => askEffect(context, { kind: "effect", item: item }));
}

/**
 * Test points: where a meter may be put to test an item without harm, best first, and what is not permitted with the rule and its
 * source. What the document does not say permits nothing. The maker's procedure comes first.
 *
 * @param machine The machine.
 * @param item An address, an id or words that fit one item only.
 * @param where Variant (build) and state; see {@link OpenSetting}. What may be touched depends on the state.
 * @returns The test points, with times in minutes; or why the name fits no single item; or what to choose from.
 */
export function testPoints(
  machine: Machine,
  item: string,
  where: OpenSetting = {},
): TestPointsAnswer | UnresolvedAnswer | ChooseAnswer {
  return inContext(machine, where, (context) => askTestPoints(context, { kind: "test-points", item: item }));
}

/**
 * The expected reading of a meter between two points, with its limits in V, Ω, A or a share of the time, with or without faults.
 *
 * @param machine The machine.
 * @param question Leads, function of the meter and conditions. A lead that may not be placed gives the reason in place of a value.
 * @param where Variant (build) and state; see {@link OpenSetting}.
 * @returns The reading; or why a name fits no single item; or what is wrong with the question; or what to choose from.
 */
export function expectedReading(
  machine: Machine,
  question: ExpectedReadingQuestion,
  where: OpenSetting = {},
): ExpectedReadingAnswer | UnresolvedAnswer | WrongQuestionAnswer | ChooseAnswer {
  return inContext(machine, where, (context) => askExpectedReading(context, { kind: "expected", ...question }));
}

function inContext<Answer>(
  machine: Machine,
  where: OpenSetting,
  ask: (context: MachineContext) => Answer,
): Answer | ChooseAnswer {
  const context = resolveContext(machine, where);
  return context.ok ? ask(context.value) : context.error;
}
