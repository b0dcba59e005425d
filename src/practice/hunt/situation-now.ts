import type { Fault, Situation } from "../../electrics/index.ts";
import { happens } from "./dice.ts";
import type { HuntState } from "./hunt-state.ts";

/** Share of readings at which a fault that comes and goes happens to fail. Common practice, no source. */
const FAILS_NOW = 0.15;

/**
 * The faults that are there now: the hidden one as long as it is not mended, and terminals damaged in the hunt. What comes and goes fails
 * once in a while, by the draw of the task.
 *
 * @param hunt The hunt.
 * @param isMoved Whether everything that comes and goes is being moved, and so fails.
 */
export function faultsNow(hunt: HuntState, isMoved = false): readonly Fault[] {
  const { task, isMended, damage, steps } = hunt;
  const isFailing = (key: string): boolean => isMoved || happens(task.number, `${key} ${steps.length}`, FAILS_NOW);
  const hidden = isMended || (task.hidden.isIntermittent && !isFailing("hidden")) ? [] : task.hidden.faults;
  const spread = damage.flatMap(({ item, isMended: isWhole }): readonly Fault[] =>
    isWhole || item.type !== "contact" || !isFailing(item.id) ? [] : [{ kind: "open", of: item.id }],
  );
  return [...hidden, ...spread];
}

/** The situation that the meter is held into. */
export function situationNow(hunt: HuntState): Situation {
  const { state, unplugged } = hunt.setup;
  return { state, unplugged, faults: faultsNow(hunt) };
}
