/** The first place at which a text stops being JSON. Line and column count from 1. */
export interface JsonFault {
  readonly position: number;
  readonly line: number;
  readonly column: number;
  readonly reason: string;
}

const SPACE = /[ \t\n\r]*/y;
const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
const WORD = /true|false|null/y;
const ESCAPE = /\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/y;
/** Characters below this one may not stand in a string as they are. */
const FIRST_PRINTING = " ";

/** What may stand at the present place. */
type Want = "value" | "value or ]" | "key" | "key or }" | "colon" | "comma or ]" | "comma or }" | "end";

const WANTED: Readonly<Record<Want, string>> = {
  value: "a value",
  "value or ]": "a value or ]",
  key: "a key in double quotes",
  "key or }": "a key in double quotes or }",
  colon: "a colon",
  "comma or ]": "a comma or ]",
  "comma or }": "a comma or }",
  end: "the end of the text",
};

/**
 * Finds where a text stops being JSON. The parser of the language only says so in words that differ from one engine to the next.
 *
 * @param text A text that `JSON.parse` refused.
 * @returns The first fault, or undefined if the text is JSON after all.
 * @example
 * ```ts
 * import { findJsonFault } from "ohmward/harness-model";
 * expect(findJsonFault('{"a": NaN}')).toEqual({ position: 6, line: 1, column: 7, reason: "found N, wanted a value" });
 * expect(findJsonFault("[1, 2]")).toBeUndefined();
 * ```
 * Source: ECMA-404, The JSON data interchange syntax.
 */
export function findJsonFault(text: string): JsonFault | undefined {
  const open: ("{" | "[")[] = [];
  let want: Want = "value";
  let position = 0;
  for (;;) {
    position = skip(SPACE, text, position);
    const sign = text.charAt(position);
    const step: Step | "fault" | undefined = sign === "" && isEnd(want) ? undefined : takeToken(text, position, want);
    if (step === undefined) return undefined;
    if (step === "fault") return faultAt(text, position, want);
    if (step.opens) open.push(step.opens);
    if (step.closes) open.pop();
    position = step.end;
    want = step.next ?? afterValue(open.at(-1));
  }
}

interface Step {
  readonly end: number;
  /** What comes next; absent after a whole value. */
  readonly next?: Want;
  readonly opens?: "{" | "[";
  readonly closes?: true;
}

function takeToken(text: string, position: number, want: Want): Step | "fault" {
  const sign = text.charAt(position);
  const end = position + 1;
  if (want === "value or ]" && sign === "]") return { end, closes: true };
  if (want === "key or }" && sign === "}") return { end, closes: true };
  if (want === "comma or ]" || want === "comma or }") {
    if (sign === ",") return { end, next: want === "comma or ]" ? "value" : "key" };
    return sign === want.at(-1) ? { end, closes: true } : "fault";
  }
  if (want === "colon") return sign === ":" ? { end, next: "value" } : "fault";
  if (want === "key" || want === "key or }") {
    const after = skipString(text, position);
    return after > position ? { end: after, next: "colon" } : "fault";
  }
  if (want === "end") return "fault";
  if (sign === "{") return { end, opens: "{", next: "key or }" };
  if (sign === "[") return { end, opens: "[", next: "value or ]" };
  const after = Math.max(skipString(text, position), skip(NUMBER, text, position), skip(WORD, text, position));
  return after > position ? { end: after } : "fault";
}

function afterValue(inside: "{" | "[" | undefined): Want {
  if (inside === undefined) return "end";
  return inside === "{" ? "comma or }" : "comma or ]";
}

function skip(token: RegExp, text: string, position: number): number {
  token.lastIndex = position;
  return token.test(text) ? token.lastIndex : position;
}

// A function, because the compiler believes that a variable set in a loop still holds its first value.
function isEnd(want: Want): boolean {
  return want === "end";
}

/** The end of the string that begins here; the place itself if none does. A loop, because a pattern would run out of stack on a long one. */
function skipString(text: string, position: number): number {
  if (text.charAt(position) !== '"') return position;
  for (let at = position + 1; at < text.length;) {
    const sign = text.charAt(at);
    if (sign === '"') return at + 1;
    const after = sign === "\\" ? skip(ESCAPE, text, at) : sign < FIRST_PRINTING ? at : at + 1;
    if (after === at) return position;
    at = after;
  }
  return position;
}

function faultAt(text: string, position: number, want: Want): JsonFault {
  const before = text.slice(0, position);
  const line = before.split("\n").length;
  const column = position - (before.lastIndexOf("\n") + 1) + 1;
  const found = String.fromCodePoint(text.codePointAt(position) ?? 0);
  const name = position >= text.length ? "the end of the text" : /\p{C}/u.test(found) ? "a control character" : found;
  const isString = text.charAt(position) === '"' && (want.startsWith("value") || want.startsWith("key"));
  const reason = isString
    ? "a string is not closed, or holds a line break or a wrong escape"
    : `found ${name}, wanted ${WANTED[want]}`;
  return { position, line, column, reason };
}
