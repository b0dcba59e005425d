import { defined } from "../../base/index.ts";
import { readUnit, unitSort, type Unit } from "./columns.ts";
import { END_WORDS, HEADING_WORDS, type HeadingTopic } from "./heading-words.ts";

/** What a heading may mean, with how sure that is, from 0 to 1. */
export interface HeadingReading {
  readonly topic: HeadingTopic | "end" | "cable";
  /** Which end of a wire is meant, if the heading says so. */
  readonly end?: "from" | "to";
  readonly unit?: Unit;
  readonly score: number;
}

const list = (text: string): readonly string[] =>
  text.split(",").flatMap((word) => word.trim().replace(/\s+/gu, " ") || []);
const TOPICS: ReadonlyMap<string, HeadingTopic> = new Map(
  (Object.entries(HEADING_WORDS) as [HeadingTopic, string][]).flatMap(([topic, words]) =>
    list(words).map((word): [string, HeadingTopic] => [word, topic]),
  ),
);
const FROM = list(END_WORDS.from);
const TO = list(END_WORDS.to);
const ENDS: ReadonlySet<string> = new Set([...FROM, ...TO]);
/** Words that may stand beside the word that counts. */
const FILLERS: ReadonlySet<string> = new Set([
  ..."no nr num number nummer numero id name names code kod the n ref der die das des du la le el il of de del no1 extern intern external internal remote local o do da".split(
    " ",
  ),
]);

/**
 * Reads one heading, such as `Querschnitt [mm²]`, `from_pin`, `Pin1` or `wirenumber`; capitals, accents and signs do not matter.
 *
 * @param heading The heading as written.
 * @returns What it may mean; undefined if no word of it is known.
 */
export function readHeading(heading: string): HeadingReading | undefined {
  const unit = unitIn(heading);
  const words = plainWords(heading);
  if (words === "") return unit === undefined ? undefined : ofUnit(unit);
  const whole = topicOf(words);
  if (whole?.topic === "pin" && unit !== undefined && unitSort(unit) === "length")
    return { topic: "terminalSize", unit, score: whole.score };
  if (whole) return { ...whole, ...defined({ unit }) };
  const directed = withEnd(words);
  if (directed) return { ...directed, ...defined({ unit }) };
  const apart = words.split(" ").map(joinedWords).join(" ");
  if (apart !== words) return readHeading(apart);
  if (pinOwner(heading) !== undefined) return { topic: "pin", score: 0.85 };
  const loose = words.length > 40 ? undefined : words.split(" ").flatMap((word) => TOPICS.get(word) ?? [])[0];
  if (loose) return { topic: loose, score: 0.6, ...defined({ unit }) };
  return unit === undefined ? undefined : ofUnit(unit);
}

function ofUnit(unit: Unit): HeadingReading {
  return { topic: unitSort(unit), unit, score: 0.7 };
}

function topicOf(words: string): { topic: HeadingTopic; score: number } | undefined {
  const exact = TOPICS.get(words);
  if (exact) return { topic: exact, score: 1 };
  const bare = words.split(" ").filter((word) => !FILLERS.has(word));
  const known = TOPICS.get(bare.join(" "));
  return known && { topic: known, score: 0.9 };
}

/** A heading that names an end: `from pin`, `Pin A`, `nach`, `connector 2`. */
function withEnd(words: string): HeadingReading | undefined {
  for (const [end, signs, letters] of [
    ["from", FROM, ["a", "1"]],
    ["to", TO, ["b", "2"]],
  ] as const) {
    if (signs.includes(words)) return { topic: "end", end, score: 1 };
    const stands = (each: string): boolean => words.startsWith(`${each} `) || words.endsWith(` ${each}`);
    const sign = signs.find(stands);
    const letter = letters.find(stands);
    const found = sign ?? letter;
    if (found === undefined) continue;
    const rest = words.startsWith(`${found} `) ? words.slice(found.length + 1) : words.slice(0, -found.length - 1);
    if (sign !== undefined && rest.split(" ").every((word) => FILLERS.has(word)))
      return { topic: "end", end, score: 0.9 };
    const topic = topicOf(rest);
    if (topic) return { ...topic, end, score: topic.score * 0.98 };
  }
  return undefined;
}

/** Words before "pin" that name no connector of their own. */
const NO_OWNER: ReadonlySet<string> = new Set(["connector", "half", "wire", "pin", "net", "splice", "mate"]);
const GENERIC_OWNERS: ReadonlySet<string> = new Set([
  "component",
  "device",
  "part",
  "bauteil",
  "composant",
  "componente",
]);

/**
 * The connector whose pins a heading speaks of: `ECU` in `ECU pin`, `Sensor` in `Sensor pin`.
 *
 * @param heading The heading as written.
 * @returns Its name as written; undefined where it names none, as `From pin` or `Pin no.`.
 */
export function pinOwner(heading: string): string | undefined {
  const [, owner = "", last = ""] =
    /^\s*(.*?\p{L}.*?)[\s_-]+(\p{L}+)\.?\s*(?:no\.?|number|nr\.?|#)?\s*$/iu.exec(heading) ?? [];
  const words = plainWords(owner);
  if (
    words === "" ||
    TOPICS.get(plainWords(last)) !== "pin" ||
    GENERIC_OWNERS.has(words) ||
    TOPICS.has(plainWords(heading))
  )
    return undefined;
  const apart = words.split(" ");
  const isOwner = apart.every((word) => !ENDS.has(word) && !FILLERS.has(word)) && !/^[ab12]$/u.test(words);
  return isOwner && !NO_OWNER.has(topicOf(words)?.topic ?? "") ? owner.trim() : undefined;
}

/** `wirenumber` as `wire number`, where both parts are known words; any other word as it is. */
function joinedWords(word: string): string {
  if (word.length < 5 || word.length > 30) return word;
  for (let at = 2; at <= word.length - 2; at++) {
    const [first, second] = [word.slice(0, at), word.slice(at)];
    const isKnown = (part: string): boolean => TOPICS.has(part) || ENDS.has(part);
    if (isKnown(first) && (isKnown(second) || (second.length > 1 && FILLERS.has(second)))) return `${first} ${second}`;
    if (FILLERS.has(first) && first.length > 2 && TOPICS.has(second)) return second;
  }
  return word;
}

function plainWords(heading: string): string {
  return heading
    .replace(/[([{][^)\]}]*[)\]}]/gu, " ")
    .replace(/(\p{Ll})(?=\p{Lu}|\d)/gu, (letter, _own, at: number, whole: string) =>
      /^mm[2²]/iu.test(whole.slice(at - 1)) ? letter : `${letter} `,
    )
    .toLowerCase()
    .replaceAll("ß", "ss")
    .replaceAll("mm²", "mm2")
    .replaceAll("ł", "l")
    .normalize("NFD")
    .replace(/\p{M}/gu, "")
    .replaceAll("ø", "o")
    .replace(/[^\p{L}\p{N}]+/gu, " ")
    .trim();
}

/** A unit in brackets, or as the last word after a comma, slash or `in`. */
function unitIn(heading: string): Unit | undefined {
  const bracketed = /[([{]\s*([^)\]}]+?)\s*[)\]}]/u.exec(heading)?.[1];
  if (bracketed !== undefined) {
    const unit = readUnit(bracketed);
    if (unit) return unit;
  }
  const words = heading.trim().split(/[\s,/_]+/u);
  const last = words.at(-1) ?? "";
  // A single letter at the end is as likely a mark of the end of a wire.
  return last.length > 1 || words.length === 1 ? readUnit(last) : undefined;
}
