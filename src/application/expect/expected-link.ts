import { EXPECT_METERS, type Conditions, type ExpectQuestion, type TableQuestion } from "../question.ts";

/** The keys of a link that may be given several times, with what they list. */
export const LISTS: ReadonlyMap<string, keyof Conditions> = new Map<string, keyof Conditions>([
  ["fault", "faults"],
  ["unplugged", "unplugged"],
  ["adapter", "adapters"],
  ["set", "settings"],
]);

type Pairs = readonly (readonly [string, string])[];

/** A question for readings as keys and values of a link. */
export function expectPairs(question: ExpectQuestion | TableQuestion): [string, string][] {
  const pairs: [string, string][] = [question.kind === "expected" ? ["red", question.red] : ["item", question.item]];
  if (question.black !== undefined) pairs.push(["black", question.black]);
  if (question.kind === "expected" && question.meter !== undefined) pairs.push(["meter", question.meter]);
  if (question.kind === "expected" && question.calculateOnly === true) pairs.push(["understanding", "1"]);
  for (const [key, list] of LISTS) for (const text of question[list] ?? []) pairs.push([key, text]);
  return pairs;
}

/** Reads a question for one reading; undefined where it names no point or a meter that is not known. */
export function readExpect(values: ReadonlyMap<string, string>, pairs: Pairs): ExpectQuestion | undefined {
  const [red, black, asked] = [values.get("red"), values.get("black"), values.get("meter")];
  const meter = EXPECT_METERS.find((each) => each === asked);
  if (red === undefined || (asked !== undefined && meter === undefined)) return undefined;
  return {
    kind: "expected",
    red,
    ...(black === undefined ? {} : { black }),
    ...(meter === undefined ? {} : { meter }),
    ...(values.get("understanding") === "1" ? { calculateOnly: true } : {}),
    ...readConditionTexts(pairs),
  };
}

/** Reads a question for a table; undefined where it names no thing. */
export function readTable(values: ReadonlyMap<string, string>, pairs: Pairs): TableQuestion | undefined {
  const [item, black] = [values.get("item"), values.get("black")];
  if (item === undefined) return undefined;
  return { kind: "table", item, ...(black === undefined ? {} : { black }), ...readConditionTexts(pairs) };
}

function readConditionTexts(pairs: Pairs): Conditions {
  const found = [...LISTS].map(([key, list]) => {
    const texts = pairs.flatMap(([each, text]) => (each === key ? [text] : []));
    return [list, texts] as const;
  });
  return Object.fromEntries(found.filter(([, texts]) => texts.length > 0));
}
