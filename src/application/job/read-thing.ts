import { err, ok, type Result } from "../../base/index.ts";
import type { Harness } from "../../harness-model/index.ts";
import { circuitsOf, findNet, resolve, type Resolved } from "../../connectivity/index.ts";
import type { JobProblem } from "./job-answers.ts";

/**
 * Finds the one item of the variant that a text names.
 *
 * @param harness The harness.
 * @param text What was typed.
 * @param at Where it was typed, for the problem.
 */
export function readThing(harness: Harness, text: string, at: string): Result<Resolved, JobProblem> {
  const typed = text.trim();
  const found = resolve(harness, typed);
  const problem = (message: string, hint: string): Result<never, JobProblem> => err({ at, message, hint });
  const names = (items: readonly { readonly id: string }[]): string => items.map(({ id }) => id).join(", ");
  switch (found.kind) {
    case "one":
      return ok(found.item);
    case "several":
      return problem(`"${typed}" names several items.`, `Give one of: ${names(found.items)}.`);
    case "not-fitted":
      return problem(
        `${found.item.id} is not fitted in this variant.`,
        `It is fitted in: ${found.fittedIn.join(", ") || "none"}.`,
      );
    case "empty":
      return problem(`No wire in the data ends at ${found.item.id}.`, "Give a cavity with a wire in it.");
    case "unknown":
      return problem(
        `There is no item "${typed}" in the harness data.`,
        found.suggestions.length > 0 ? `Similar names: ${names(found.suggestions)}.` : "Give its id or address.",
      );
  }
}

/**
 * Finds the item whose function a text names, such as `B3` or `A3.K1`; where no supply or consumer is known, any connector, wire or net.
 *
 * @param harness The harness.
 * @param text What was typed.
 * @param at Where it was typed, for the problem.
 * @returns Its id; a problem also if neither a circuit nor a wire is connected to it.
 */
export function readFunction(harness: Harness, text: string, at: string): Result<string, JobProblem> {
  const item = readThing(harness, text, at);
  if (!item.ok) return item;
  if (circuitsOf(harness, item.value).length > 0 || findNet(harness, item.value).edges.length > 0)
    return ok(item.value.id);
  return err({
    at,
    message: `No wire in the data is connected to ${item.value.id} in this variant.`,
    hint: "Give the part that works or fails, a connector or a wire. To see what is missing in the data: ohmward gaps FILE.",
  });
}
