import { describe, expect, test } from "vitest";
import type { Code } from "ohmward/harness-model";
import { codesOfNumbers, readCodeNumbers } from "ohmward/application";

describe("readCodeNumbers()", () => {
  test.each([
    ["520301/3", { spn: 520301, fmi: 3 }],
    ["SPN 520301 FMI 3", { spn: 520301, fmi: 3 }],
    ["spn:520301 fmi:31", { spn: 520301, fmi: 31 }],
    ["520301", { spn: 520301, fmi: undefined }],
    [" 520301.4 ", { spn: 520301, fmi: 4 }],
    ["FE111", undefined],
    ["520301/", undefined],
    ["5203011", undefined],
    ["520301/333", undefined],
    ["", undefined],
  ])("%j", (text, numbers) => {
    expect(readCodeNumbers(text)).toEqual(numbers);
  });
});

describe("codesOfNumbers()", () => {
  const code = (id: string, spn: number, fmi: number | undefined, failure: Code["failure"]): Code => ({
    id,
    label: id,
    points: ["E1.X:1"],
    spn,
    ...(fmi === undefined ? {} : { fmi }),
    failure,
  });
  const codes = [code("A", 7, 3, "voltage-high"), code("B", 7, undefined, "erratic"), code("C", 8, 3, "voltage-high")];
  const ids = (text: string): Readonly<Record<string, readonly string[]>> => {
    const numbers = readCodeNumbers(text);
    if (!numbers) throw new Error(text);
    return Object.fromEntries(
      Object.entries(codesOfNumbers(codes, numbers)).map(([key, found]: [string, readonly Code[]]) => [
        key,
        found.map(({ id }) => id),
      ]),
    );
  };

  // What the identifiers mean: SAE J1939-73 (2 erratic, 3 shorted high, 5 open circuit).
  test.each([
    ["7/3", ["A"], [], ["A", "B"]],
    ["7/2", [], ["B"], ["A", "B"]],
    ["7/5", [], [], ["A", "B"]],
    ["7", ["A", "B"], [], ["A", "B"]],
    ["9/3", [], [], []],
  ])("%s", (text, exact, alike, ofParameter) => {
    expect(ids(text)).toEqual({ exact, alike, ofParameter });
  });
});
