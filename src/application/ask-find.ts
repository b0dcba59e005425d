import { describeItem, find } from "../connectivity/index.ts";
import type { FindAnswer } from "./answer.ts";
import { cautionsForList } from "./cautions.ts";
import { makeHeader } from "./header.ts";
import type { Question } from "./question.ts";
import type { MachineContext } from "./machine-context.ts";

/** Most hits an answer lists. */
const MOST_HITS = 20;

/**
 * Things that fit the words of a search, best first.
 *
 * @param context The machine in its build and state.
 * @param question The words as typed.
 */
export function askFind(context: MachineContext, question: Extract<Question, { kind: "find" }>): FindAnswer {
  const { machine, harness } = context;
  const hits = find(harness, question.text, { limit: MOST_HITS });
  const items = hits.map((hit) => hit.item);
  const foundIn = machine.document.builds
    .map((build) => String(build.id))
    .filter((id) => {
      const other = hits.length > 0 || id === harness.build.id ? undefined : machine.harness(id);
      return other !== undefined && find(other, question.text, { limit: 1 }).length > 0;
    });
  return {
    kind: "find",
    ...makeHeader(context, { cautions: cautionsForList(context, items) }),
    text: question.text.trim(),
    hits: hits.map((hit) => ({ ...describeItem(harness, hit.item), label: hit.label })),
    foundIn,
  };
}
