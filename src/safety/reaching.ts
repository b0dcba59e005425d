import type { Access, Hazard, State } from "../model/index.ts";
import type { Reaching } from "./contact.ts";
import type { SafetyIndex } from "./safety-index.ts";

/** Minutes taken where the document says nothing of a place or anything near it. Common practice, no source. */
export const TYPICAL_MINUTES = 5;

/** What is known of where a thing sits. */
export interface Whereabouts {
  readonly access?: Access | undefined;
  readonly zone?: string | undefined;
  readonly component?: string | undefined;
  /** Dangers of the segment, on top of those of its zone. */
  readonly hazards?: readonly Hazard[] | undefined;
  /** Minutes on top, such as fitting an adapter. */
  readonly extraMinutes?: number | undefined;
}

/**
 * How a place is reached. Where the document gives it no access of its own, the quickest connector or stud of the same component, then of
 * the same zone, stands in, and the figure counts as estimated.
 *
 * @param index The index.
 * @param at What is known of the place.
 */
export function reachingOf(index: SafetyIndex, at: Whereabouts): Reaching {
  const byComponent = at.component === undefined ? undefined : index.quickestOfComponent.get(at.component);
  const zone = at.zone ?? byComponent?.zone;
  const byZone = zone === undefined ? undefined : index.quickestOfZone.get(zone);
  const access = at.access ?? byComponent?.access ?? byZone?.access;
  return {
    zone,
    minutes: (access?.minutes ?? TYPICAL_MINUTES) + (at.extraMinutes ?? 0),
    isEstimated: at.access === undefined,
    remove: access?.remove,
    // The states of a neighbour are its own; a borrowed figure does not forbid anything.
    states: at.access?.states,
    hazards: [...((zone === undefined ? undefined : index.zones.get(zone)?.hazards) ?? []), ...(at.hazards ?? [])],
  };
}

/** The dangers of a place that hold in a state. */
export function hazardsIn(reaching: Reaching, state: State): readonly Hazard[] {
  return reaching.hazards.filter((hazard) => hazard.states?.some((id) => id === state.id) ?? true);
}
