import { evaluateOptionExpression, parseOptionExpression } from "./option-expression.ts";
import type { Build } from "./schema/machine.ts";

/** Says of an option expression whether what carries it is fitted; an absent expression means fitted everywhere. */
export type Fitting = (when: string | undefined) => boolean;

/**
 * Makes the fitting test of one build. An expression that does not parse counts as fitted; the checks have reported it.
 *
 * @param build The build; its options are the fitted ones.
 */
export function makeFitting(build: Build): Fitting {
  const fitted = new Set<string>(build.options);
  const known = new Map<string, boolean>();
  return (when) => {
    if (when === undefined) return true;
    let answer = known.get(when);
    if (answer === undefined) {
      const parsed = parseOptionExpression(when);
      answer = !parsed.ok || evaluateOptionExpression(parsed.value, fitted);
      known.set(when, answer);
    }
    return answer;
  };
}
