import type { Through } from "../../connectivity/index.ts";
import type { Conditions, ExpectMeter, MarkedText, Question } from "../../application/index.ts";
import type { AskKind } from "./words.ts";

/** A question while it is being put together. `from` serves as the one item of the questions that have one only. */
export interface QuestionDraft {
  readonly kind: AskKind;
  readonly from: string;
  readonly to: string;
  readonly reach: Through | "";
  readonly items: readonly MarkedText[];
  /** What a reading is taken with; its leads are `from` (red) and `to` (black). */
  readonly meter: ExpectMeter;
  /** What else a link says of the machine for a reading; kept, but not edited on the screen. */
  readonly conditions: Omit<Conditions, "faults">;
}

/** Nothing asked yet. */
export const EMPTY_DRAFT: QuestionDraft = {
  kind: "circuit",
  from: "",
  to: "",
  reach: "",
  items: [],
  meter: "dc-voltage",
  conditions: {},
};

/** The question a draft stands for; undefined while something is missing. */
export function questionOf(draft: QuestionDraft): Question | undefined {
  const from = draft.from.trim();
  const to = draft.to.trim();
  switch (draft.kind) {
    case "path":
      if (from === "" || to === "") return undefined;
      return { kind: "path", from, to, ...(draft.reach !== "" && { through: draft.reach }) };
    case "circuit":
      return from === "" ? undefined : { kind: "circuit", point: from };
    case "effect":
    case "test-points":
      return from === "" ? undefined : { kind: draft.kind, item: from };
    case "common":
      return draft.items.length < 2 ? undefined : { kind: "common", items: draft.items };
    case "expected": {
      const hasBlack = draft.meter !== "dc-current" && to !== "";
      if (from === "" || (draft.meter === "voltage-drop" && !hasBlack)) return undefined;
      const meter = draft.meter === "dc-voltage" ? {} : { meter: draft.meter };
      return { kind: "expected", red: from, ...(hasBlack && { black: to }), ...meter, ...draft.conditions };
    }
  }
}

/** The draft that shows a question; what the question does not name stays as it was. */
export function draftOf(question: Question, before: QuestionDraft): QuestionDraft {
  if (question.kind === "path")
    return { ...before, kind: "path", from: question.from, to: question.to, reach: question.through ?? "" };
  if (question.kind === "circuit") return { ...before, kind: "circuit", from: question.point };
  if (question.kind === "effect" || question.kind === "test-points")
    return { ...before, kind: question.kind, from: question.item };
  if (question.kind === "common") return { ...before, kind: "common", items: question.items };
  if (question.kind === "expected") {
    const { kind, red, black = "", meter = "dc-voltage", faults: _switches, ...conditions } = question;
    return { ...before, kind, from: red, to: black, meter, conditions };
  }
  return before;
}

/** What is still missing, in words for the button. */
export function whatIsMissing(draft: QuestionDraft): string {
  switch (draft.kind) {
    case "path":
      return "Enter both points first";
    case "common":
      return "Enter two items or more first";
    case "expected":
      return draft.meter === "voltage-drop"
        ? "Enter the points of both leads first"
        : "Enter the point of the red lead first";
    case "circuit":
    case "effect":
    case "test-points":
      return "Enter an item first";
  }
}
