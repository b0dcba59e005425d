import type { AnswerHeader } from "./answer.ts";
import type { MachineContext } from "./machine-context.ts";

/** What the header of an answer says besides where it holds. */
export interface HeaderParts {
  readonly cautions: readonly string[];
  /** What the answer takes for granted; with one or more the answer is computed, with none it is read from the document. */
  readonly assumptions?: readonly string[];
  /** What the data leaves open, so that the answer may not be the whole of it. */
  readonly notKnown?: readonly string[];
}

/**
 * What every answer carries.
 *
 * @param context The machine in its build and state.
 * @param parts Cautions and assumptions of the answer.
 */
export function makeHeader(
  context: MachineContext,
  { cautions, assumptions = [], notKnown = [] }: HeaderParts,
): AnswerHeader {
  return {
    machine: context.machine.document.about.machine,
    build: context.harness.build.id,
    ...(context.state && { state: context.state.id }),
    origin: assumptions.length > 0 ? "computed" : "data",
    assumptions: [...context.assumptions, ...assumptions],
    cautions,
    ...(notKnown.length > 0 && { notKnown }),
  };
}
