import type { Hazard, State } from "../model/index.ts";

/** Whether a danger holds in a state; one that names no states always does. */
export function holdsIn({ states = [] }: Hazard, state: State): boolean {
  return states.length === 0 || states.includes(state.id);
}

/** Whether a danger holds in some states and not in others. */
export function isOfState({ states = [] }: Pick<Hazard, "states">): boolean {
  return states.length > 0;
}
