import type { Answer, ExpectedReadingAnswer, ExpectMeter, Question, TableAnswer } from "../../application/index.ts";

/** A lead of a meter. */
export type Lead = ExpectedReadingAnswer["leads"][number]["lead"];

/** A fault a person listed, in the text form of `parseFault`, switched on or off. */
export interface FaultSwitch {
  readonly text: string;
  readonly isOn: boolean;
}

/** Whether an answer is a reading between two leads. */
export function isReading(answer: Answer): answer is ExpectedReadingAnswer {
  return "canBeMeasured" in answer;
}

/** Whether an answer is a table of readings. */
export function isTable(answer: Answer): answer is TableAnswer {
  return answer.kind === "table";
}

/** Whether a reading has no value only because a lead may not go where it is asked for. */
export function isNotPlaced({ because }: ExpectedReadingAnswer): boolean {
  return because.some(({ code }) => code === "not-placed");
}

/** The faults of a list that are switched on. */
export function faultsOn(faults: readonly FaultSwitch[]): readonly string[] {
  return faults.filter(({ isOn }) => isOn).map(({ text }) => text);
}

/**
 * A question as the screen puts it: with the faults that are switched on, and with leads on permitted points only, whatever a link says.
 * Questions that are not about readings stay as they are.
 */
export function withFaults(question: Question, faults: readonly FaultSwitch[]): Question {
  if (question.kind !== "expected" && question.kind !== "table") return question;
  const on = faultsOn(faults);
  if (question.kind === "table") {
    const { faults: _before, ...rest } = question;
    return on.length === 0 ? rest : { ...rest, faults: on };
  }
  const { faults: _before, calculateOnly: _anywhere, ...rest } = question;
  return on.length === 0 ? rest : { ...rest, faults: on };
}

/** What the address of the page holds of readings, beside the question. */
export interface ReadingsLink {
  readonly faults: readonly FaultSwitch[];
  readonly showsReadings: boolean;
}

/** Writes it as parts of a query; the faults that are on stand in the question where that is about readings. */
export function readingsParts({ faults, showsReadings }: ReadingsLink, question: Question | undefined): string[] {
  const isInQuestion = question?.kind === "expected" || question?.kind === "table";
  const parts = faults.flatMap(({ text, isOn }) => {
    if (isOn && isInQuestion) return [];
    return [`${isOn ? "fault" : "off"}=${encodeURIComponent(text)}`];
  });
  return showsReadings ? [...parts, "readings=1"] : parts;
}

/** Reads it back. */
export function readReadings(values: URLSearchParams): ReadingsLink {
  const on = values.getAll("fault").map((text) => ({ text, isOn: true }));
  const off = values.getAll("off").map((text) => ({ text, isOn: false }));
  return { faults: [...on, ...off], showsReadings: values.get("readings") === "1" };
}

/** The meters, as they are offered. */
export const METERS: readonly { readonly id: ExpectMeter; readonly title: string }[] = [
  { id: "dc-voltage", title: "DC voltage" },
  { id: "voltage-drop", title: "voltage drop, under load" },
  { id: "resistance", title: "resistance, power off" },
  { id: "dc-current", title: "DC current, current clamp" },
  { id: "test-lamp", title: "voltage across a test lamp" },
  { id: "duty-cycle", title: "duty cycle" },
];

/** What a meter is called. */
export function meterTitle(meter: ExpectMeter): string {
  return METERS.find(({ id }) => id === meter)?.title ?? meter;
}

/** A kind of reading told without colour: a sign, and words that say what it is not. */
export const KIND_WORDS: Readonly<
  Record<ExpectedReadingAnswer["kind"], { readonly sign: string; readonly title: string }>
> = {
  value: { sign: "=", title: "The meter shows" },
  floating: { sign: "∿", title: "Floating point: not 0 V" },
  overload: { sign: "⇥", title: "OL (over range): not zero" },
  refused: { sign: "⊘", title: "Do not measure in this state" },
  contradictory: { sign: "⇄", title: "No value: sources contradict each other" },
  "no-steady-state": { sign: "↻", title: "No value: the machine does not settle" },
};

/** What is shown in place of a value while a lead is not placed. */
export const NOT_PLACED = { sign: "⊘", title: "No reading: a lead is not placed" };

/** Whether a lead may go where it is asked for, in a word and with a sign. */
export const ACCESS_WORDS: Readonly<
  Record<ExpectedReadingAnswer["leads"][number]["access"], { readonly sign: string; readonly title: string }>
> = {
  permitted: { sign: "✓", title: "permitted" },
  elsewhere: { sign: "→", title: "not here, but on the same conductor" },
  opened: { sign: "△", title: "only with the connector disconnected" },
  none: { sign: "✕", title: "no permitted contact" },
  unknown: { sign: "?", title: "not known" },
};
