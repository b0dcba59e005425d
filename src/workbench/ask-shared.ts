import { describeItem, findCommon, type Marked } from "../trace/index.ts";
import type { Answer, SharedAnswer } from "./answer.ts";
import { cautionsFor } from "./cautions.ts";
import { makeHeader } from "./header.ts";
import type { Question } from "./question.ts";
import { resolveText } from "./resolve-text.ts";
import type { Scene } from "./scene.ts";

/** What a comparison takes for granted. */
const ASSUMPTIONS: readonly string[] = [
  "Each thing stands for every circuit it belongs to.",
  "Switches and relay contacts count as able to close, fuses as whole.",
  "One fault explains all things marked bad; things marked good work in full.",
];

/**
 * What the circuits of several things have in common, most suspect first.
 *
 * @param scene The machine in its build and state.
 * @param question The things as typed, with their marks.
 */
export function askShared(scene: Scene, question: Extract<Question, { kind: "shared" }>): Answer {
  const marked: Marked[] = [];
  for (const { text, mark } of question.things) {
    const thing = resolveText(scene, text);
    if (!thing.ok) return thing.error;
    marked.push({ thing: thing.value, mark });
  }
  const { harness } = scene;
  const common = findCommon(harness, marked);
  const places = common.items.length === 0 ? common.asked.map((each) => each.item) : common.items;
  return {
    kind: "shared",
    ...makeHeader(scene, { cautions: cautionsFor(scene, places), assumptions: ASSUMPTIONS }),
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
