import type { Access, Harness, Hazard, State } from "../harness-model/index.ts";
import type { Reaching } from "./findings.ts";
import { holdsIn, type SafetyIndex } from "./safety-index.ts";

/** Minutes taken where the document says nothing of a place or anything near it. Common practice, no source. */
const TYPICAL_MINUTES = 5;

/** What is known of where a thing sits. */
interface LocationFacts {
  readonly access?: Access | undefined;
  readonly zone?: string | undefined;
  readonly component?: string | undefined;
  /** The states in which it can be reached. */
  readonly states: Access["states"];
  /** Dangers of the segment, on top of those of its zone. */
  readonly hazards?: readonly Hazard[] | undefined;
  /** Its zone does not tell all: the dangers of its segment, or the segments it runs through, are not known. */
  readonly isPlaceUnknown?: boolean;
  /** Minutes on top, such as fitting an adapter. */
  readonly extraMinutes?: number | undefined;
}

/**
 * How a place is reached. Where the document gives it no access of its own, the quickest connector or stud of the same component, then of
 * the same zone, stands in, and the figure counts as estimated.
 *
 * @param at What is known of the place.
 */
export function reachingOf(index: SafetyIndex, at: LocationFacts): Reaching {
  const byComponent = at.component === undefined ? undefined : index.quickestOfComponent.get(at.component);
  const byZone = at.zone === undefined ? undefined : index.quickestOfZone.get(at.zone);
  const access = at.access ?? byComponent?.access ?? byZone?.access ?? index.harness.document.system.usualAccess;
  const ofZone = at.zone === undefined ? undefined : index.zones.get(at.zone)?.hazards;
  return {
    zone: at.zone,
    minutes: (access?.minutes ?? TYPICAL_MINUTES) + (at.extraMinutes ?? 0),
    isEstimated: at.access === undefined,
    remove: access?.remove,
    states: at.states,
    hazards: [...(ofZone ?? []), ...(at.hazards ?? [])],
    isPlaceUnknown: ofZone === undefined || at.isPlaceUnknown === true,
  };
}

/** The access of a connector or stud: its own, else the usual access of the machine; undefined where neither is known. */
export function accessOf({ document }: Harness, of: { readonly access?: Access | undefined }): Access | undefined {
  return of.access ?? document.system.usualAccess;
}

/** Whether a place can be reached in a state. Where the document does not say in which, only a disconnected battery will do. */
export function isReachableIn(states: Access["states"], state: State): boolean {
  if (states === undefined) return state.conditions.includes("battery-disconnected");
  return states === "any" || states.includes(state.id);
}

/** The dangers of a place that hold in a state. */
export function hazardsIn(reaching: Reaching, state: State): readonly Hazard[] {
  return reaching.hazards.filter((hazard) => holdsIn(hazard, state));
}
