import type { Harness } from "../../model/index.ts";
import type { FunctionSign, Signs } from "./signs.ts";

/** Functions named one by one before the rest is counted. */
const MOST_NAMED = 5;

/**
 * The complaint as a driver would say it: what does not work when, what the code reader showed, whether it comes and goes. No part of the
 * cause is named that is not itself a sign.
 *
 * @param harness The machine.
 * @param signs What shows.
 * @param isIntermittent Whether it comes and goes.
 */
export function complaintWords(harness: Harness, signs: Signs, isIntermittent: boolean): readonly string[] {
  const { codes, functions } = signs;
  const words = functions.slice(0, MOST_NAMED).map((sign) => say(harness, sign));
  if (functions.length > MOST_NAMED)
    words.push(`${functions.length - MOST_NAMED} more things do not work as they should.`);
  if (codes.length > 0) words.push(`The code reader shows ${codes.join(", ")}.`);
  else if (functions.length > 0) words.push("The code reader shows no code.");
  if (isIntermittent) words.push("It comes and goes; on the rough it is worse.");
  return words;
}

function say(harness: Harness, { component, what, state }: FunctionSign): string {
  const label = harness.fitted.components.get(component)?.label ?? component;
  const when = harness.document.states.find((each) => each.id === state)?.label ?? state;
  switch (what) {
    case "dead":
      return `${label} (${component}) does nothing. Machine: ${when.toLowerCase()}.`;
    case "weak":
      return `${label} (${component}) is weak. Machine: ${when.toLowerCase()}.`;
    case "on":
      return `${label} (${component}) works although it should not. Machine: ${when.toLowerCase()}.`;
    case "unseen":
      return `The machine takes ${label} (${component}) for set otherwise than it is. Machine: ${when.toLowerCase()}.`;
  }
}
