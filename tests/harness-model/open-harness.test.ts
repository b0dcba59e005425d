import { describe, expect, test } from "vitest";
import { openHarness, type OpenLimits, type Problem } from "ohmward/harness-model";
import { baseDocument, opened } from "./support.ts";

function problemsOf(text: string, limits?: OpenLimits): readonly Problem[] {
  const result = openHarness(text, limits);
  return result.ok ? result.value.warnings : result.error;
}

describe("openHarness()", () => {
  const text = JSON.stringify(baseDocument());

  test("gives back the document as it was written, field by field", () => {
    expect(opened(baseDocument())).toEqual(baseDocument());
  });

  test("reads a byte order mark, Windows line ends and space around", () => {
    const windows = JSON.stringify(baseDocument(), undefined, 2).replaceAll("\n", "\r\n");
    expect(openHarness(`\uFEFF ${windows}\r\n\r\n`).ok).toBe(true);
  });

  test("counts the limit in characters, and takes exactly as many", () => {
    expect(openHarness(text, { mostCharacters: text.length }).ok).toBe(true);
    expect(problemsOf(text, { mostCharacters: text.length - 1 }).map((each) => each.code)).toEqual(["too-large"]);
  });

  test.each([
    ['{\n "a" 1}', 2, 6],
    ['\uFEFF{"a" 1}', 1, 6],
    ['{"a":1,\r\n}', 2, 1],
  ])("says where %j stops being JSON", (broken, line, column) => {
    expect(problemsOf(broken)).toMatchObject([{ code: "not-json", at: { path: "", line, column } }]);
  });

  test.each(["[]", "null", "1", '"ohmward-harness"', "{}", '{"format":1}', '{"format":null}'])(
    "says of %s that it is no harness document",
    (json) => {
      expect(problemsOf(json)).toMatchObject([{ code: "wrong-format", at: { path: "format" } }]);
    },
  );

  test.each([4, 1e21, 3.5])("leaves version %d to a newer program", (version) => {
    expect(problemsOf(JSON.stringify({ ...baseDocument(), version }))).toMatchObject([{ code: "newer-version" }]);
  });

  test.each([0, -1, 0.5, 1.5, "1", null, undefined])("says of version %j that the shape is wrong", (version) => {
    expect(problemsOf(JSON.stringify({ ...baseDocument(), version }))).toMatchObject([
      { code: "shape", at: { path: "version" } },
    ]);
  });

  test("takes net labels of wires as they are where the document lists no nets", () => {
    const document = baseDocument();
    document.nets = [];
    document.cautions = [];
    expect(problemsOf(JSON.stringify(document))).toEqual([]);
  });

  test("lists 200 shape problems and counts the rest", () => {
    const broken = { ...baseDocument(), wires: Array.from({ length: 500 }, () => 0) };
    const problems = problemsOf(JSON.stringify(broken));
    expect(problems).toHaveLength(201);
    expect(problems.at(-1)?.message).toBe("300 more problems of this sort");
  });
});
