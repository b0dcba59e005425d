/** What a person may be asked about a table. */
export const PROPOSAL_KINDS = {
  "size-unit": "the unit of sizes that have none",
  "colour-codes": "what short colour codes mean",
  "ground-studs": "names without a pin that are ground studs",
  "one-point": "names without a pin that are one point, where several wires end",
  "joined-inside": "points of a terminal strip or busbar that are joined inside",
} as const;

/** A sort of proposal, as it is confirmed: one answer for all of its kind. */
export type ProposalKind = keyof typeof PROPOSAL_KINDS;

/** One question about a table, with the answer that is proposed. */
export interface TableProposal {
  readonly kind: ProposalKind;
  /** The question, with the proposed answer in it. */
  readonly text: string;
  /** What speaks for it. */
  readonly evidence: readonly string[];
  /** What holds as long as nobody confirms it. */
  readonly otherwise: string;
  readonly isAccepted: boolean;
}
