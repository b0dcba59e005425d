import { describeItem, findCommon, type CommonBasis, type Marked } from "../connectivity/index.ts";
import type { CommonAnswer, UnresolvedAnswer } from "./answer.ts";
import { cautionsFor } from "./cautions.ts";
import { makeHeader } from "./header.ts";
import { notKnown } from "./not-known.ts";
import type { Question } from "./question.ts";
import { resolveText } from "./resolve-text.ts";
import type { MachineContext } from "./machine-context.ts";

/** What a comparison takes for granted. */
const STANDS_FOR: Readonly<Record<CommonBasis, string>> = {
  circuits: "Each item stands for every circuit it belongs to.",
  conductors:
    "Each item stands for every circuit it belongs to, and for all that wires, contacts, splices and terminal studs join to it.",
};
const ASSUMPTIONS: readonly string[] = [
  "Switches and relay contacts can close. Fuses are not blown.",
  "One fault explains all items that fail. The items that work have no fault.",
];

/**
 * What the circuits of several things have in common, most suspect first.
 *
 * @param context The machine in its build and state.
 * @param question The things as typed, with their marks.
 */
export function askCommon(
  context: MachineContext,
  question: Extract<Question, { kind: "common" }>,
): CommonAnswer | UnresolvedAnswer {
  const marked: Marked[] = [];
  for (const { text, mark } of question.items) {
    const item = resolveText(context, text);
    if (!item.ok) return item.error;
    marked.push({ item: item.value, mark });
  }
  const { harness } = context;
  const items = marked.map(({ item }) => item);
  const common = findCommon(harness, marked);
  const places = common.items.length === 0 ? common.asked.map((each) => each.item) : common.items;
  return {
    kind: "common",
    basis: common.basis,
    ...makeHeader(context, {
      cautions: cautionsFor(context, places),
      assumptions: [STANDS_FOR[common.basis], ...ASSUMPTIONS],
      notKnown: common.basis === "circuits" ? [] : notKnown(context, items),
    }),
    asked: common.asked.map(({ item, mark, circuits }) => ({ ...item, mark, circuitCount: circuits })),
    items: common.items.map(({ circuits, bad, good, isSuspect, circuitsInAll, ...item }) => ({
      ...describeItem(harness, item),
      circuits,
      bad,
      good,
      isSuspect,
      circuitsInAll,
    })),
  } satisfies CommonAnswer;
}
