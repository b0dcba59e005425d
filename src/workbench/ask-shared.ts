import { describeItem, findCommon, type CommonBasis, type Marked } from "../trace/index.ts";
import type { SharedAnswer, UnresolvedAnswer } from "./answer.ts";
import { cautionsFor } from "./cautions.ts";
import { makeHeader } from "./header.ts";
import { notKnown } from "./not-known.ts";
import type { Question } from "./question.ts";
import { resolveText } from "./resolve-text.ts";
import type { Scene } from "./scene.ts";

/** What a comparison takes for granted. */
const STANDS_FOR: Readonly<Record<CommonBasis, string>> = {
  circuits: "Each thing stands for every circuit it belongs to.",
  conductors:
    "Each thing stands for every circuit it belongs to and for all that wires, contacts, splices and studs join to it.",
};
const ASSUMPTIONS: readonly string[] = [
  "Switches and relay contacts count as able to close, fuses as whole.",
  "One fault explains all things marked bad; things marked good work in full.",
];

/**
 * What the circuits of several things have in common, most suspect first.
 *
 * @param scene The machine in its build and state.
 * @param question The things as typed, with their marks.
 */
export function askShared(
  scene: Scene,
  question: Extract<Question, { kind: "shared" }>,
): SharedAnswer | UnresolvedAnswer {
  const marked: Marked[] = [];
  for (const { text, mark } of question.things) {
    const thing = resolveText(scene, text);
    if (!thing.ok) return thing.error;
    marked.push({ thing: thing.value, mark });
  }
  const { harness } = scene;
  const things = marked.map(({ thing }) => thing);
  const common = findCommon(harness, marked);
  const places = common.items.length === 0 ? common.asked.map((each) => each.item) : common.items;
  return {
    kind: "shared",
    basis: common.basis,
    ...makeHeader(scene, {
      cautions: cautionsFor(scene, places),
      assumptions: [STANDS_FOR[common.basis], ...ASSUMPTIONS],
      notKnown: common.basis === "circuits" ? [] : notKnown(scene, things),
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
  } satisfies SharedAnswer;
}
