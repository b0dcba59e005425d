import { unreachable, wordsOf } from "../base/index.ts";
import { OLD_METERS, OLD_QUESTIONS, OLD_WIDTHS } from "./old-words.ts";
import { THROUGH, type Mark, type Through } from "../connectivity/index.ts";
import { expectPairs, LISTS, readExpect, readTable } from "./expect/expected-link.ts";
import { FIND_GROUPS } from "./find-groups.ts";
import { decodePart, encodePart } from "./link-text.ts";
import type { MarkedText, OpenSetting, Question } from "./question.ts";

/** A question with the build and state it is asked in: what a link holds. */
export interface LinkedQuestion {
  readonly setting: OpenSetting;
  readonly question: Question;
}

/** Longest link that is read, in characters. */
const MOST_CHARACTERS = 16_384;
const MARKS: readonly Mark[] = ["bad", "good", "unknown"];

/**
 * Writes a question as the query text of a link, without the question mark: `build=base&ask=between&from=A1.X1:36&to=B3`.
 *
 * @param linked The question and its setting.
 * @returns The text; {@link readQuestionLink} reads it back. Half surrogate pairs, which no link can carry, become U+FFFD.
 * @example
 * ```ts
 * import { readQuestionLink, writeQuestionLink } from "ohmward/application";
 * const link = writeQuestionLink({ setting: { build: "base" }, question: { kind: "circuit", point: "A1.X1:36" } });
 * expect(link).toBe("build=base&ask=circuit&point=A1.X1:36");
 * expect(readQuestionLink(link)?.question).toEqual({ kind: "circuit", point: "A1.X1:36" });
 * ```
 */
export function writeQuestionLink({ setting, question }: LinkedQuestion): string {
  const pairs: [string, string][] = [];
  if (setting.build !== undefined) pairs.push(["build", setting.build]);
  if (setting.state !== undefined) pairs.push(["state", setting.state]);
  pairs.push(["ask", question.kind], ...questionPairs(question));
  return pairs.map(([key, value]) => `${key}=${encodePart(value)}`).join("&");
}

function questionPairs(question: Question): readonly [string, string][] {
  switch (question.kind) {
    case "circuit":
      return [["point", question.point]];
    case "path": {
      const through: [string, string][] = question.through === undefined ? [] : [["through", question.through]];
      return [["from", question.from], ["to", question.to], ...through];
    }
    case "common":
      return question.items.map(({ text, mark }) => [mark, text]);
    case "effect":
    case "test-points":
      return [["item", question.item]];
    case "find":
      return [["words", question.text], ...(question.group ? [["group", question.group] as [string, string]] : [])];
    case "expected":
    case "table":
      return expectPairs(question);
    default:
      return unreachable(question);
  }
}

/**
 * Reads the query text of a link. Keys that are no part of a question are passed over, so that a screen may keep others beside them.
 *
 * @param text The query text, with or without the question mark.
 * @returns The question and its setting; undefined where the text holds none: no `ask`, an unknown one, a part that is missing or
 *   given twice, an escape that is no text, more than 16,384 characters.
 */
export function readQuestionLink(text: string): LinkedQuestion | undefined {
  if (text.length > MOST_CHARACTERS) return undefined;
  const pairs = readPairs(text.startsWith("?") ? text.slice(1) : text);
  if (!pairs) return undefined;
  const values = new Map<string, string>();
  for (const [key, value] of pairs) {
    if (isMark(key) || LISTS.has(key)) continue;
    if (values.has(key)) return undefined;
    values.set(key, value);
  }
  const question = readQuestion(values, pairs);
  if (!question) return undefined;
  const [build, state] = [values.get("build"), values.get("state")];
  return {
    setting: { ...(build === undefined ? {} : { build }), ...(state === undefined ? {} : { state }) },
    question,
  };
}

const KEYS: ReadonlySet<string> = new Set([
  ...[
    "build",
    "state",
    "ask",
    "point",
    "from",
    "to",
    "through",
    "item",
    "words",
    "group",
    "red",
    "black",
    "meter",
    "understanding",
  ],
  ...LISTS.keys(),
  ...MARKS,
]);

/** The pairs whose keys are known, in order; undefined where one of them does not decode. */
function readPairs(query: string): readonly (readonly [string, string])[] | undefined {
  const pairs: [string, string][] = [];
  for (const part of query.split("&")) {
    const equals = part.indexOf("=");
    const written = equals < 0 ? part : part.slice(0, equals);
    const key = written === "thing" ? "item" : written;
    if (!KEYS.has(key)) continue;
    const value = decodePart(equals < 0 ? "" : part.slice(equals + 1));
    if (value === undefined) return undefined;
    pairs.push([key, todaysWord(key, value)]);
  }
  return pairs;
}

const OLD_WORDS = new Map([
  ["ask", wordsOf(OLD_QUESTIONS)],
  ["through", wordsOf(OLD_WIDTHS)],
  ["meter", wordsOf(OLD_METERS)],
]);

/** Links of version 0.1 ask in its words. */
function todaysWord(key: string, value: string): string {
  return OLD_WORDS.get(key)?.(value) ?? value;
}

function readQuestion(
  values: ReadonlyMap<string, string>,
  pairs: readonly (readonly [string, string])[],
): Question | undefined {
  const [point, item, text] = [values.get("point"), values.get("item"), values.get("words")];
  const kind: string = values.get("ask") ?? "";
  switch (kind) {
    case "circuit":
      return point === undefined ? undefined : { kind: "circuit", point };
    case "path":
      return readBetween(values);
    case "common":
      return { kind: "common", items: pairs.flatMap(readMarked) };
    case "effect":
      return item === undefined ? undefined : { kind: "effect", item };
    case "test-points":
      return item === undefined ? undefined : { kind: "test-points", item };
    case "find":
      return text === undefined ? undefined : readFind(text, values.get("group"));
    case "expected":
      return readExpect(values, pairs);
    case "table":
      return readTable(values, pairs);
    default:
      return undefined;
  }
}

function readFind(text: string, asked: string | undefined): Question | undefined {
  if (asked === undefined) return { kind: "find", text };
  const group = FIND_GROUPS.find((each) => each === asked);
  return group === undefined ? undefined : { kind: "find", text, group };
}

function readBetween(values: ReadonlyMap<string, string>): Question | undefined {
  const [from, to, asked] = [values.get("from"), values.get("to"), values.get("through")];
  if (from === undefined || to === undefined) return undefined;
  if (asked === undefined) return { kind: "path", from, to };
  const through: Through | undefined = THROUGH.find((each) => each === asked);
  return through === undefined ? undefined : { kind: "path", from, to, through };
}

function readMarked([key, text]: readonly [string, string]): readonly MarkedText[] {
  return isMark(key) ? [{ text, mark: key }] : [];
}

function isMark(key: string): key is Mark {
  return MARKS.some((mark) => mark === key);
}
