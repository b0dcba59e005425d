import { expect } from "vitest";
import { Answer, ask, openMachine, type Machine, type OpenSetting, type Question } from "ohmward/application";
import { demoText } from "../demo-harness/open-demo.ts";

/** The answers that may have a kind; one sort of answer has several kinds. */
export type OfKind<Kind extends Answer["kind"], Each = Answer> = Each extends Answer
  ? Kind extends Each["kind"]
    ? Each
    : never
  : never;

/** The demo machine. */
export const demo: Machine = open(demoText("firnlark-45.ohm.json"));

/** Opens a text that has no problems. */
export function open(text: string): Machine {
  const opened = openMachine(text);
  if (!opened.ok) throw new Error(opened.error.map((found) => `${found.at.path}: ${found.message}`).join("\n"));
  return opened.value;
}

/** Asks and checks that the answer is plain data that its own schema describes to the last key. */
export function askChecked(machine: Machine, setting: OpenSetting, question: Question): Answer {
  const answer = ask(machine, setting, question);
  expect(Answer.parse(answer)).toEqual(answer);
  expect(JSON.parse(JSON.stringify(answer))).toEqual(answer);
  return answer;
}

/** Asks the demo machine a question whose answer must be of a kind. */
export function askDemo<Kind extends Answer["kind"]>(
  kind: Kind,
  question: Question,
  setting: OpenSetting = { build: "base" },
): OfKind<Kind> {
  return ofKind(kind, askChecked(demo, setting, question));
}

/** The answer, which must be of a kind. */
export function ofKind<Kind extends Answer["kind"]>(kind: Kind, answer: Answer): OfKind<Kind> {
  if (!hasKind(kind, answer)) throw new Error(`Wanted ${kind}, got ${JSON.stringify(answer).slice(0, 400)}`);
  return answer;
}

function hasKind<Kind extends Answer["kind"]>(kind: Kind, answer: Answer): answer is OfKind<Kind> {
  return answer.kind === kind;
}
