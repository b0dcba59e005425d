import type { Answer } from "../../application/index.ts";

const DRAWN = ["path", "no-path", "circuit", "common", "effect", "test-points"] as const;

/** An answer that has a view of its own; the others are shown as text. */
export type DrawnAnswer = Extract<Answer, { readonly kind: (typeof DRAWN)[number] }>;

/** An answer that asks back: a name that fits nothing or several items, a build or a state to choose. */
export type AskingAnswer = Extract<
  Answer,
  { readonly kind: "unknown" | "ambiguous" | "not-fitted" | "empty" | "choose-build" | "choose-state" }
>;

/** Whether an answer has a view of its own. */
export function isDrawn(answer: Answer): answer is DrawnAnswer {
  return DRAWN.some((kind) => kind === answer.kind);
}

/** Whether an answer asks back. */
export function isAsking(answer: Answer): answer is AskingAnswer {
  const { kind } = answer;
  return ["unknown", "ambiguous", "not-fitted", "empty", "choose-build", "choose-state"].includes(kind);
}
