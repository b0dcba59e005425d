import { colourMark, HATCHES } from "ohmward/drawing";
import { COLOURS } from "ohmward/harness-model";
import { describe, expect, test } from "vitest";

describe("colourMark()", () => {
  test.each(COLOURS.map(({ code }) => code))("has letters, words and a hatching for %s", (code) => {
    expect(HATCHES.has(code)).toBe(true);
    expect(colourMark(code)).toMatchObject({ letters: code, hatch: HATCHES.get(code) });
  });

  test.each([
    ["BK", false],
    ["BU", false],
    ["WH", true],
    ["YE", true],
    ["PK", true],
  ])("says whether dark letters read better on %s: %s", (code, isLight) => {
    expect(colourMark(code).isLight).toBe(isLight);
  });

  test("keeps letters it does not know and gives them no swatch", () => {
    expect(colourMark("<b>")).toMatchObject({ letters: "<b>", name: "<b>" });
    expect(colourMark("XX").base).toBeUndefined();
    expect(colourMark(undefined)).toMatchObject({ letters: "?", name: "colour not known" });
  });
});
