import { findProbePoints, type ProbePoint } from "../measurement-safety/index.ts";
import { describeItem } from "../connectivity/index.ts";
import type { ChooseAnswer, TestPointsAnswer, UnresolvedAnswer } from "./answer.ts";
import { cautionsFor } from "./cautions.ts";
import { makeHeader } from "./header.ts";
import type { Question } from "./question.ts";
import { resolveText } from "./resolve-text.ts";
import type { MachineContext } from "./machine-context.ts";

/** What the answer takes for granted. */
const ASSUMPTIONS: readonly string[] = [
  "The machine is in the state that the document describes. Adapters and terminals are undamaged and of the size named.",
];

/**
 * Test points to test a thing, best first, and what is refused with the reason.
 *
 * @param context The machine in its build and state.
 * @param question The thing as typed.
 * @returns The answer; a document without states asks for one, since what may be touched depends on it.
 */
export function askTestPoints(
  context: MachineContext,
  question: Extract<Question, { kind: "test-points" }>,
): TestPointsAnswer | UnresolvedAnswer | ChooseAnswer {
  const of = resolveText(context, question.item);
  if (!of.ok) return of.error;
  const { harness, state, machine } = context;
  if (!state) {
    const text = "The harness document has no states of the machine. The permitted test points depend on the state.";
    return { kind: "choose-state", machine: machine.document.about.machine, text, choices: [] };
  }
  const { points, refused, cautions } = findProbePoints(harness, of.value, state);
  return {
    kind: "test-points",
    ...makeHeader(context, {
      cautions: [...new Set([...cautionsFor(context, [of.value]), ...cautions])],
      assumptions: [
        ...(context.isStateAssumed ? [`No state was given. Assumed: ${state.id}, ${state.label}.`] : []),
        ...ASSUMPTIONS,
      ],
    }),
    of: describeItem(harness, of.value),
    points: points.map(toPoint),
    refused,
  } satisfies TestPointsAnswer;
}

function toPoint(point: ProbePoint): TestPointsAnswer["points"][number] {
  return { ...point, between: point.between.map((item) => item.id) };
}
