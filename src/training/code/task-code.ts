import { err, keptFor, ok, seededRandom, type Result, type SeededRandom } from "../../base/index.ts";
import { inWordsOfVersion2, type HarnessDocument } from "../../harness-model/index.ts";
import { contentHash, plainText } from "../../job-records/index.ts";
import { DRILL_KINDS, type DrillKind, type Level } from "../drills/drill.ts";

/**
 * The 23 characters of a task code: capitals and digits without those that are taken for one another (0 and O, 1 and I and L, 2 and Z,
 * 5 and S, 6 and G at small size, 8 and B, U and V). Their number is prime, so that one check character finds every single wrong
 * character and every swap of two neighbours.
 */
export const CODE_ALPHABET = "ACDEFGHJKMNPQRTVWXY3479";

/** What an exercise is about: fault finding, drills of all kinds, or drills of one kind. */
export type Topic = "exercise" | "drills" | DrillKind;

/** What a task code says. */
export interface TaskId {
  readonly topic: Topic;
  readonly level: Level;
  /** Id of a build of the harness. */
  readonly build: string;
  /** Which of the tasks of this sort: 0 to 2,097,151. */
  readonly number: number;
}

/** What may be wrong with a code. */
export interface CodeProblem {
  readonly code: "wrong-length" | "wrong-character" | "mistyped" | "other-harness" | "unknown-build" | "unknown-topic";
  readonly message: string;
}

/** The order is part of the code: new topics are added at the end. */
const TOPICS: readonly Topic[] = ["exercise", "drills", ...DRILL_KINDS];
/** Most tasks of one sort. */
export const MOST_NUMBER = 2 ** 21 - 1;
/** Raised whenever a code would give another task than before, so that codes made by another version of the program are refused. */
const DRAW_VERSION = 3;
const MOST_BUILDS = 512;
const BODY = 8;
const DATA_CHECK = 3;
const LENGTH = BODY + DATA_CHECK + 1;

/**
 * Writes the code of a task: eight characters for the task, three for the data of the harness, one that finds typing slips.
 *
 * @returns Such as `ACDE-FGHJ-KMNP`.
 * @throws RangeError if the build is unknown or the number out of range.
 */
export function writeTaskCode(document: HarnessDocument, task: TaskId): string {
  const build = document.builds.findIndex((each) => each.id === task.build);
  const topic = TOPICS.indexOf(task.topic);
  const { number, level } = task;
  if (build < 0 || build >= MOST_BUILDS) throw new RangeError(`Cannot write a code: no build "${task.build}"`);
  if (!Number.isInteger(number) || number < 0 || number > MOST_NUMBER)
    throw new RangeError(`Cannot write a code: ${number} is not 0 to ${MOST_NUMBER}`);
  // Whole numbers below 2^53 are exact, so this is the same everywhere.
  const body = ((topic * 4 + level) * MOST_BUILDS + build) * (MOST_NUMBER + 1) + number;
  const text = digits(body, BODY) + digits(dataNumber(document), DATA_CHECK);
  const code = text + slipCheck(text);
  return [code.slice(0, 4), code.slice(4, 8), code.slice(8)].join("-");
}

/**
 * Reads a task code. Small letters, blanks and hyphens do not matter.
 *
 * @param document The harness document it is to be used with.
 * @param text The code as typed.
 * @returns The task, or what is wrong: a slip in the typing, or harness data other than the code was made from.
 * @example
 * ```ts
 * import { readTaskCode, writeTaskCode } from "ohmward/training";
 * const document = { builds: [{ id: "base", label: "Base", options: [] }] } as never;
 * const code = writeTaskCode(document, { topic: "exercise", level: 2, build: "base", number: 45 });
 * const read = readTaskCode(document, code.toLowerCase());
 * expect(read.ok && read.value.number).toBe(45);
 * const slip = readTaskCode(document, (code.startsWith("A") ? "C" : "A") + code.slice(1));
 * expect(slip.ok ? "" : slip.error.code).toBe("mistyped");
 * ```
 */
export function readTaskCode(document: HarnessDocument, text: string): Result<TaskId, CodeProblem> {
  const code = text.toUpperCase().replace(/[\s-]/gu, "");
  const wrong = [...code].find((character) => !CODE_ALPHABET.includes(character));
  if (wrong !== undefined)
    return problem(
      "wrong-character",
      `"${wrong}" is not a character of an exercise code; the characters are ${CODE_ALPHABET}`,
    );
  if (code.length !== LENGTH)
    return problem("wrong-length", `An exercise code has ${LENGTH} characters; this one has ${code.length}`);
  if (slipCheck(code.slice(0, -1)) !== code.at(-1))
    return problem(
      "mistyped",
      "The check character does not fit: compare the code with the original, character by character",
    );
  if (code.slice(BODY, BODY + DATA_CHECK) !== digits(dataNumber(document), DATA_CHECK))
    return problem(
      "other-harness",
      "The code was made with other harness data or by another version of the program: the exercise would differ",
    );
  let rest = valueOf(code.slice(0, BODY));
  const take = (count: number): number => {
    const part = rest % count;
    rest = (rest - part) / count;
    return part;
  };
  const number = take(MOST_NUMBER + 1);
  const build = document.builds[take(MOST_BUILDS)]?.id;
  const level = ([1, 2, 3] as const).find((each) => each === rest % 4);
  const topic = TOPICS[(rest - (rest % 4)) / 4];
  if (build === undefined) return problem("unknown-build", "The harness data has no such variant");
  if (topic === undefined || level === undefined)
    return problem("unknown-topic", "The code is for a kind of exercise that this program does not know");
  return ok({ topic, level, build, number });
}

/** The stream of random numbers that a task is drawn with. */
export function randomOfTask(task: TaskId): SeededRandom {
  // Tasks of different sorts with one number should have nothing in common.
  return seededRandom(task.number + (TOPICS.indexOf(task.topic) * 4 + task.level) * (MOST_NUMBER + 1));
}

function problem(code: CodeProblem["code"], message: string): Result<TaskId, CodeProblem> {
  return err({ code, message });
}

function dataNumber(document: HarnessDocument): number {
  const check = contentHash(`${DRAW_VERSION} ${harnessCheck(document)}`);
  return Number.parseInt(check.slice(0, 12), 16) % CODE_ALPHABET.length ** DATA_CHECK;
}

function digits(value: number, count: number): string {
  let rest = value;
  let text = "";
  for (let place = 0; place < count; place++) {
    text = (CODE_ALPHABET[rest % CODE_ALPHABET.length] ?? "") + text;
    rest = Math.floor(rest / CODE_ALPHABET.length);
  }
  return text;
}

function valueOf(text: string): number {
  return [...text].reduce((sum, character) => sum * CODE_ALPHABET.length + CODE_ALPHABET.indexOf(character), 0);
}

/** Weights 2, 3, 4... modulo a prime: all differ and none is 0, so one wrong character or two swapped ones always show. */
function slipCheck(text: string): string {
  const sum = [...text].reduce((all, character, at) => all + (at + 2) * CODE_ALPHABET.indexOf(character), 0);
  return CODE_ALPHABET[sum % CODE_ALPHABET.length] ?? "";
}

/**
 * A fingerprint of all data of a harness document: the same whatever the order of the keys in its file, another if any value changes. The
 * link to the schema does not count.
 *
 * @returns Sixteen hexadecimal digits. No protection against somebody who wants two documents to agree.
 */
export const harnessCheck = keptFor((document: HarnessDocument): string => {
  const { $schema: _, ...data } = inWordsOfVersion2(document);
  return contentHash(plainText(data));
});
