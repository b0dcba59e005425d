/** What the text of a problem is: how bad, the sentence, and what to do. */
export interface ProblemText {
  readonly severity: "error" | "warning";
  readonly message: (facts: never) => string;
  readonly hint: string;
}

/** The text of a problem that keeps a file from being imported. */
export function error<Facts>(message: (facts: Facts) => string, hint: string) {
  return { severity: "error" as const, message, hint };
}

/** The text of a problem that does not. */
export function warning<Facts>(message: (facts: Facts) => string, hint: string) {
  return { severity: "warning" as const, message, hint };
}
