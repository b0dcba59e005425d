import type { ColumnField } from "./columns.ts";
import { END_WORDS, HEADING_WORDS, type HeadingTopic } from "./heading-words.ts";
import { readUnit, unitSort, type Unit } from "./units.ts";

/** What a heading may mean, with how sure that is, from 0 to 1. */
export interface HeadingReading {
  readonly topic: HeadingTopic | "end";
  /** Which end of a wire is meant, if the heading says so. */
  readonly end?: "from" | "to";
  readonly unit?: Unit;
  readonly score: number;
}

const list = (text: string): readonly string[] => text.split(",").map((word) => word.trim().replace(/\s+/gu, " "));
const TOPICS: ReadonlyMap<string, HeadingTopic> = new Map(
  (Object.entries(HEADING_WORDS) as [HeadingTopic, string][]).flatMap(([topic, words]) =>
    list(words).map((word): [string, HeadingTopic] => [word, topic]),
  ),
);
const FROM = list(END_WORDS.from);
const TO = list(END_WORDS.to);
/** Words that may stand beside the word that counts. */
const FILLERS: ReadonlySet<string> = new Set(
  list(
    "no, nr, num, number, nummer, numero, id, name, code, kod, the, n, ref, der, die, das, des, du, la, le, el, il, of, de, del, no1",
  ),
);

/**
 * Reads one heading of a table. Capitals, accents, signs and units in brackets do not matter.
 *
 * @param heading The heading as written, such as `Querschnitt [mm²]` or `To pin`.
 * @returns What it means, or undefined if no word of it is known.
 */
export function readHeading(heading: string): HeadingReading | undefined {
  const unit = unitIn(heading);
  const words = plainWords(heading);
  if (words === "") return unit === undefined ? undefined : ofUnit(unit);
  const whole = topicOf(words);
  if (whole?.topic === "pin" && unit !== undefined && unitSort(unit) === "length") {
    return { topic: "terminalSize", unit, score: whole.score };
  }
  if (whole) return { ...whole, ...(unit === undefined ? {} : { unit }) };
  const directed = withEnd(words);
  if (directed) return directed;
  const loose = words
    .split(" ")
    .map((word) => TOPICS.get(word))
    .find((topic) => topic !== undefined);
  if (loose) return { topic: loose, score: 0.6, ...(unit === undefined ? {} : { unit }) };
  return unit === undefined ? undefined : ofUnit(unit);
}

/** The field of a table that a topic stands for, once the end is known. */
export function fieldOf(topic: HeadingReading["topic"], end: "from" | "to" | undefined): ColumnField | undefined {
  if (topic === "end") return end;
  if (topic === "type") return end === undefined ? "type" : `${end}Type`;
  if (topic === "component" || topic === "connector" || topic === "half" || topic === "pin") {
    if (end === undefined) return topic;
    return `${end}${topic === "component" ? "Component" : topic === "connector" ? "Connector" : topic === "half" ? "Half" : "Pin"}`;
  }
  if (topic === "splice" && end !== undefined) return `${end}Connector`;
  return end === undefined ? topic : undefined;
}

function ofUnit(unit: Unit): HeadingReading {
  return { topic: unitSort(unit), unit, score: 0.7 };
}

function topicOf(words: string): { topic: HeadingTopic; score: number } | undefined {
  const exact = TOPICS.get(words);
  if (exact) return { topic: exact, score: 1 };
  const bare = words
    .split(" ")
    .filter((word) => !FILLERS.has(word))
    .join(" ");
  const known = TOPICS.get(bare);
  return known && { topic: known, score: 0.9 };
}

/** A heading that names an end: `from pin`, `Pin A`, `nach`, `connector 2`. */
function withEnd(words: string): HeadingReading | undefined {
  for (const [end, signs, letters] of [
    ["from", FROM, ["a", "1"]],
    ["to", TO, ["b", "2"]],
  ] as const) {
    if (signs.includes(words)) return { topic: "end", end, score: 1 };
    const sign = signs.find((each) => words.startsWith(`${each} `) || words.endsWith(` ${each}`));
    const letter = letters.find((each) => words.endsWith(` ${each}`));
    const found = sign ?? letter;
    if (found === undefined) continue;
    const rest = words.startsWith(`${found} `) ? words.slice(found.length + 1) : words.slice(0, -found.length - 1);
    const topic = topicOf(rest);
    if (topic) return { ...topic, end, score: topic.score * 0.98 };
  }
  return undefined;
}

function plainWords(heading: string): string {
  return heading
    .replace(/[([{][^)\]}]*[)\]}]/gu, " ")
    .toLowerCase()
    .replaceAll("ß", "ss")
    .replaceAll("mm²", "mm2")
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
