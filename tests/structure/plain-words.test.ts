import { describe, expect, test } from "vitest";
import { projectFiles } from "./support/project-files.ts";
import { shownTexts } from "./support/shown-texts.ts";

/** Words that no text shown to a person holds: the glossary has the word of the trade. */
const NOT_PLAIN =
  /\b(?:whoever|beforehand|anew|mended|begun|stair|foresaw|foretells?|hangs on|parts these|at hand|fault hunts?|pull test|healthy)\b/iu;
/** A number with its unit and no space between; names such as `5V_REF` have no end of a word there. */
const NO_SPACE = /(?<![\w.#-])\d+(?:[.,]\d+)?(?:mm|mV|kV|V|A|mA|Ω|kΩ|W|Hz|ms|min)(?![\w-])/u;

describe("texts shown to a person", () => {
  test.each([
    ["a.ts", "const a = `The job is begun at ${b}`;", 1],
    ["a.ts", 'const a = "12V at the post";', 1],
    ["a.ts", '// mended\nimport { a } from "./anew.ts"; const b = "5V_REF is 5 V";', 0],
    ["A.svelte", "<script>const a = 'mended';</script><p title=\"whoever\">as a healthy one</p>", 3],
  ])("%s: %s has %i that are not plain", (path, source, count) => {
    expect(shownTexts(path, source).filter(({ text }) => NOT_PLAIN.test(text) || NO_SPACE.test(text))).toHaveLength(
      count,
    );
  });

  test("hold only words of the trade, and a space before a unit", () => {
    const found = projectFiles(/^src\/.*\.(?:ts|svelte)$/u).flatMap(({ path, text: source }) =>
      shownTexts(path, source)
        .filter(({ text }) => NOT_PLAIN.test(text) || NO_SPACE.test(text))
        .map(({ line, text }) => `${path}:${line}: ${text.trim().slice(0, 80)}`),
    );
    expect(found).toEqual([]);
  });
});
