/** How far a figure can be trusted: `high` two agreeing sources or one and a calculation; `medium` one source, or memory that a calculation supports; `low` memory or a weak page. */
export type Confidence = "high" | "medium" | "low";

/** Where a figure comes from. */
export interface Sourced {
  readonly source: string;
  readonly confidence: Confidence;
}

/** One row of a cable table: most resistance a new conductor of this size may have at 20 C. */
export interface CableRow extends Sourced {
  readonly crossSectionMm2: number;
  /** Milliohm per metre, which is ohm per kilometre. */
  readonly milliohmPerMetre: number;
}
