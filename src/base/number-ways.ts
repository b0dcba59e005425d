/** The sign before the decimals. */
export type DecimalSign = "point" | "comma";

/** One way to read a run of digits and signs. */
export interface NumberWay {
  /** Digits with a point, without groups: `1200.5`. */
  readonly digits: string;
  /** The sign that stands before the decimals. */
  readonly decimal?: "." | ",";
  /** The sign between groups of digits. */
  readonly group?: "." | "," | "'" | " ";
}

const SIGN: Readonly<Record<DecimalSign, "." | ",">> = { point: ".", comma: "," };
const GROUPS = [".", ",", "'", " "] as const;

/**
 * Every way to read a run of digits with points, commas, spaces and apostrophes: `1,200` is 1.2 or 1200, `0,5` only 0.5, `1.200,5` only
 * 1200.5. Groups are of three digits, in the manner of India also of two before the last three; the first group does not start with 0.
 * Spaces may part decimals as well.
 *
 * Source: ISO 80000-1 (groups of three, comma or point before decimals, the same spacing on both sides); from memory. Points, commas,
 * apostrophes between groups: common practice, no source.
 *
 * @param body digits `0` to `9` and the signs `.`, `,`, `'` and space, without a sign before it
 * @param decimal the sign before decimals where it is known; both are possible where absent
 * @returns the ways, each value once; none if it is no number
 *
 * @example
 * ```ts
 * import { numberWays } from "ohmward/base";
 *
 * expect(numberWays("1,200").map(({ digits }) => digits)).toEqual(["1.200", "1200"]);
 * expect(numberWays("1,200", "point").map(({ digits }) => digits)).toEqual(["1200"]);
 * ```
 */
export function numberWays(body: string, decimal?: DecimalSign): readonly NumberWay[] {
  const signs = decimal === undefined ? ([".", ","] as const) : [SIGN[decimal]];
  const ways = signs.flatMap((sign) => withDecimals(body, sign));
  const grouped = GROUPS.filter((group) => decimal === undefined || group !== SIGN[decimal]);
  const whole = grouped.flatMap((group): NumberWay[] => {
    const digits = withoutGroups(body, group);
    return digits === undefined ? [] : [{ digits, group }];
  });
  if (/^\d+$/u.test(body)) return [{ digits: body }];
  return [...ways, ...whole];
}

function withDecimals(body: string, decimal: "." | ","): readonly NumberWay[] {
  const [before = "", after, ...more] = body.split(decimal);
  if (after === undefined || more.length > 0 || before + after === "") return [];
  const fraction = /^\d*$/u.test(after) ? after : /^\d{3}(?: \d{3})*(?: \d{1,3})?$/u.test(after) ? after : undefined;
  if (fraction === undefined) return [];
  const digits = `.${fraction.replaceAll(" ", "")}`;
  if (/^\d*$/u.test(before)) return [{ digits: (before || "0") + (digits === "." ? "" : digits), decimal }];
  return GROUPS.flatMap((group): NumberWay[] => {
    const whole = group === decimal ? undefined : withoutGroups(before, group);
    return whole === undefined ? [] : [{ digits: whole + (digits === "." ? "" : digits), decimal, group }];
  });
}

/** The digits of a number in groups, at least two of them; undefined if it is none. */
function withoutGroups(text: string, group: NonNullable<NumberWay["group"]>): string | undefined {
  const parts = text.split(group);
  const [first = "", ...rest] = parts;
  if (rest.length === 0 || !/^[1-9]\d{0,2}$/u.test(first)) return undefined;
  const isThrees = rest.every((part) => /^\d{3}$/u.test(part));
  const isIndian =
    group === "," &&
    rest.length > 1 &&
    first.length < 3 &&
    rest.every((part, at) => (at === rest.length - 1 ? /^\d{3}$/u : /^\d{2}$/u).test(part));
  return isThrees || isIndian ? parts.join("") : undefined;
}
