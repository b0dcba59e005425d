import { parseReading } from "ohmward/diagnosis";
import { describe, expect, test } from "vitest";

describe("parseReading()", () => {
  test.each([
    ["dc-voltage", "12.4 V", 12.4, "V"],
    ["dc-voltage", "12,4", 12.4, "V"],
    ["dc-voltage", "-0.3v", -0.3, "V"],
    ["dc-voltage", "450 mV", 0.45, "V"],
    ["resistance", "1.2k", 1200, "Ω"],
    ["resistance", "1,2 kΩ", 1200, "Ω"],
    ["resistance", "3 MΩ", 3e6, "Ω"],
    ["resistance", "0.6 ohm", 0.6, "Ω"],
    ["resistance", ".5", 0.5, "Ω"],
    ["resistance", "4k7", 4700, "Ω"],
    ["dc-voltage", "50 \u03bcV", 50e-6, "V"],
  ] as const)("reads %s %s as %d %s", (kind, text, value, unit) => {
    const read = parseReading({ kind }, text);
    expect(read.ok && read.value).toMatchObject({
      kind: "value",
      value: expect.closeTo(value, 9) as number,
      unit,
      text,
    });
  });

  test.each([
    ["OL", { kind: "overload" }],
    ["over range", { kind: "overload" }],
    ["unstable", { kind: "unstable" }],
    ["?", { kind: "unsure" }],
    ["Not sure", { kind: "unsure" }],
    ["cannot", { kind: "not-possible" }],
    ["cannot: cover rusted on", { kind: "not-possible", reason: "cover rusted on" }],
  ])("reads %s", (text, given) => {
    expect(parseReading({ kind: "resistance" }, text)).toEqual({ ok: true, value: given });
  });

  test.each([
    ["resistance", "1,200", {}, ["1.2 Ω", "1200 Ω"]],
    ["resistance", "1,200 ?", {}, ["1.2 Ω ?", "1200 Ω ?"]],
    ["resistance", "1.", {}, ["1 Ω", "OL"]],
    ["dc-voltage", "12 MV", { scale: { low: 0, high: 30, most: 600 } }, ["12 mV", "12 V"]],
    ["resistance", "1200", { scale: { low: 0.01, high: 30, most: Infinity } }, ["1.2 Ω", "1200 Ω sure"]],
  ] as const)("asks about %s %s, and takes each way at once", (kind, text, context, ways) => {
    const read = parseReading({ kind }, text, context);
    expect(read.ok ? [] : read.error.ways.map(({ write }) => write)).toEqual(ways);
    for (const way of ways) expect(parseReading({ kind }, way, context).ok).toBe(true);
  });

  test("a bare number is in the unit that is chosen beside it, a written unit stands above it", () => {
    expect(parseReading({ kind: "resistance" }, "4,7", { assume: "kΩ" })).toMatchObject({
      ok: true,
      value: { value: 4700 },
    });
    expect(parseReading({ kind: "resistance" }, "4R7", { assume: "kΩ" })).toMatchObject({
      ok: true,
      value: { value: 4.7 },
    });
  });

  test("a question mark makes a number doubtful", () => {
    expect(parseReading({ kind: "dc-voltage" }, "5.1 V ?")).toMatchObject({
      ok: true,
      value: { value: 5.1, isDoubtful: true },
    });
  });

  test.each([
    ["dc-voltage", "5 ohm"],
    ["resistance", "12 V"],
    ["dc-voltage", "5 A"],
    ["dc-voltage", "about five"],
    ["dc-voltage", ""],
    ["dc-voltage", "1.2.3"],
  ] as const)("refuses %s %j and says what is wanted", (kind, text) => {
    const read = parseReading({ kind }, text);
    expect(read.ok).toBe(false);
    expect(read.ok ? "" : read.error.text.length).toBeGreaterThan(10);
  });

  test("reads the outcome of a look by its word or its sentence", () => {
    const look = {
      kind: "visual-inspection",
      key: "k",
      need: { state: "OFF", unplugged: [], places: [] },
      at: { type: "connector", id: "XC1" },
      minutes: 1,
    } as const;
    expect(parseReading(look, "sound")).toEqual({ ok: true, value: { kind: "outcome", outcome: "sound" } });
    expect(parseReading(look, "no damage found")).toEqual({
      ok: true,
      value: { kind: "outcome", outcome: "sound" },
    });
    expect(parseReading(look, "12 V").ok).toBe(false);
  });
});
