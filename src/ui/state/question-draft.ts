import type { Through } from "../../connectivity/index.ts";
import type { Conditions, ExpectMeter, MarkedText, Question } from "../../application/index.ts";
import type { AskKind } from "./words.ts";

/** A question while it is being put together. `from` serves as the one thing of the questions that have one only. */
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
  kind: "between",
  from: "",
  to: "",
  reach: "",
  items: [],
  meter: "volts",
  conditions: {},
};

/** The question a draft stands for; undefined while something is missing. */
export function questionOf(draft: QuestionDraft): Question | undefined {
  const from = draft.from.trim();
  const to = draft.to.trim();
  switch (draft.kind) {
    case "between":
      if (from === "" || to === "") return undefined;
      return { kind: "between", from, to, ...(draft.reach !== "" && { through: draft.reach }) };
    case "trace":
      return from === "" ? undefined : { kind: "trace", point: from };
    case "without":
    case "probe":
      return from === "" ? undefined : { kind: draft.kind, item: from };
    case "shared":
      return draft.items.length < 2 ? undefined : { kind: "shared", items: draft.items };
    case "expect": {
      const hasBlack = draft.meter !== "amps" && to !== "";
      if (from === "" || (draft.meter === "drop" && !hasBlack)) return undefined;
      const meter = draft.meter === "volts" ? {} : { meter: draft.meter };
      return { kind: "expect", red: from, ...(hasBlack && { black: to }), ...meter, ...draft.conditions };
    }
  }
}

/** The draft that shows a question; what the question does not name stays as it was. */
export function draftOf(question: Question, before: QuestionDraft): QuestionDraft {
  if (question.kind === "between")
    return { ...before, kind: "between", from: question.from, to: question.to, reach: question.through ?? "" };
  if (question.kind === "trace") return { ...before, kind: "trace", from: question.point };
  if (question.kind === "without" || question.kind === "probe")
    return { ...before, kind: question.kind, from: question.item };
  if (question.kind === "shared") return { ...before, kind: "shared", items: question.items };
  if (question.kind === "expect") {
    const { kind, red, black = "", meter = "volts", faults: _switches, ...conditions } = question;
    return { ...before, kind, from: red, to: black, meter, conditions };
  }
  return before;
}

/** What is still missing, in words for the button. */
export function whatIsMissing(draft: QuestionDraft): string {
  switch (draft.kind) {
    case "between":
      return "Name both ends first";
    case "shared":
      return "Name two things or more first";
    case "expect":
      return draft.meter === "drop" ? "Name the points of both leads first" : "Name the point of the red lead first";
    case "trace":
    case "without":
    case "probe":
      return "Name a thing first";
  }
}
