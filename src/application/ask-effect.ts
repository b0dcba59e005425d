import { describeItem, findOpenEffect } from "../connectivity/index.ts";
import type { UnresolvedAnswer, OpenEffectAnswer } from "./answer.ts";
import { cautionsFor } from "./cautions.ts";
import { makeHeader } from "./header.ts";
import { notKnown } from "./not-known.ts";
import type { Question } from "./question.ts";
import { resolveText } from "./resolve-text.ts";
import type { MachineContext } from "./machine-context.ts";

/** What the answer takes for granted. */
const ASSUMPTIONS: readonly string[] = [
  "Everything else has no fault, and switches and relay contacts can close. A relay contact opens when its coil stops.",
  "A control unit and all its pins stop when its largest load loses supply or ground.",
  "The program of a control unit, such as limp-home mode, is not in the data.",
];

/**
 * What stops if a thing opens or is unplugged.
 *
 * @param context The machine in its build and state.
 * @param question The thing as typed.
 */
export function askEffect(
  context: MachineContext,
  question: Extract<Question, { kind: "effect" }>,
): OpenEffectAnswer | UnresolvedAnswer {
  const of = resolveText(context, question.item);
  if (!of.ok) return of.error;
  const { harness } = context;
  const { stopped, stillFed, parted } = findOpenEffect(harness, of.value);
  return {
    kind: "effect",
    ...makeHeader(context, {
      cautions: cautionsFor(context, [of.value]),
      assumptions: ASSUMPTIONS,
      notKnown: notKnown(context, [of.value]),
    }),
    of: describeItem(harness, of.value),
    stopped: stopped.map(({ item, lost, because }) => ({
      ...describeItem(harness, item),
      lost,
      ...(because && { because }),
    })),
    stillFed: stillFed.map((item) => item.id),
    parted: parted.map((group) => group.map((item) => item.id)),
  } satisfies OpenEffectAnswer;
}
