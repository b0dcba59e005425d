/** How many elements of a class were kept as something, or left out for a reason. */
export interface LedgerShare {
  /** What they became, or why they were left out. */
  readonly what: string;
  readonly count: number;
}

/** What became of the elements of one class of a file: `found` is the sum of all counts of `kept` and `leftOut`. */
export interface LedgerRow {
  readonly class: string;
  readonly found: number;
  readonly kept: readonly LedgerShare[];
  readonly leftOut: readonly LedgerShare[];
}

/** What became of everything that a file holds: each element once, under its class. */
export interface Ledger {
  readonly file: string;
  readonly rows: readonly LedgerRow[];
}
