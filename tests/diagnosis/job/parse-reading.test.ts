import { parseReading } from "ohmward/diagnosis";
import { describe, expect, test } from "vitest";

describe("parseReading()", () => {
  test.each([
    ["volts", "12.4 V", 12.4, "V"],
    ["volts", "12,4", 12.4, "V"],
    ["volts", "-0.3v", -0.3, "V"],
    ["volts", "450 mV", 0.45, "V"],
    ["ohms", "1.2k", 1200, "Ω"],
    ["ohms", "1,2 kΩ", 1200, "Ω"],
    ["ohms", "3 MΩ", 3e6, "Ω"],
    ["ohms", "0.6 ohm", 0.6, "Ω"],
    ["ohms", ".5", 0.5, "Ω"],
    ["ohms", "4k7", 4700, "Ω"],
    ["volts", "50 \u03bcV", 50e-6, "V"],
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
    ["OL", { kind: "over-range" }],
    ["over range", { kind: "over-range" }],
    ["unsteady", { kind: "unsteady" }],
    ["?", { kind: "not-sure" }],
    ["Not sure", { kind: "not-sure" }],
    ["cannot", { kind: "cannot-be-done" }],
    ["cannot: cover rusted on", { kind: "cannot-be-done", reason: "cover rusted on" }],
  ])("reads %s", (text, given) => {
    expect(parseReading({ kind: "ohms" }, text)).toEqual({ ok: true, value: given });
  });

  test.each([
    ["ohms", "1,200", {}, ["1.2 Ω", "1200 Ω"]],
    ["ohms", "1,200 ?", {}, ["1.2 Ω ?", "1200 Ω ?"]],
    ["ohms", "1.", {}, ["1 Ω", "OL"]],
    ["volts", "12 MV", { scale: { low: 0, high: 30, most: 600 } }, ["12 mV", "12 V"]],
    ["ohms", "1200", { scale: { low: 0.01, high: 30, most: Infinity } }, ["1.2 Ω", "1200 Ω sure"]],
  ] as const)("asks about %s %s, and takes each way at once", (kind, text, context, ways) => {
    const read = parseReading({ kind }, text, context);
    expect(read.ok ? [] : read.error.ways.map(({ write }) => write)).toEqual(ways);
    for (const way of ways) expect(parseReading({ kind }, way, context).ok).toBe(true);
  });

  test("a bare number is in the unit that is chosen beside it, a written unit stands above it", () => {
    expect(parseReading({ kind: "ohms" }, "4,7", { assume: "kΩ" })).toMatchObject({ ok: true, value: { value: 4700 } });
    expect(parseReading({ kind: "ohms" }, "4R7", { assume: "kΩ" })).toMatchObject({ ok: true, value: { value: 4.7 } });
  });

  test("a question mark makes a number doubtful", () => {
    expect(parseReading({ kind: "volts" }, "5.1 V ?")).toMatchObject({
      ok: true,
      value: { value: 5.1, isDoubtful: true },
    });
  });

  test.each([
    ["volts", "5 ohm"],
    ["ohms", "12 V"],
    ["volts", "5 A"],
    ["volts", "about five"],
    ["volts", ""],
    ["volts", "1.2.3"],
  ] as const)("refuses %s %j and says what is wanted", (kind, text) => {
    const read = parseReading({ kind }, text);
    expect(read.ok).toBe(false);
    expect(read.ok ? "" : read.error.text.length).toBeGreaterThan(10);
  });

  test("reads the outcome of a look by its word or its sentence", () => {
    const look = {
      kind: "look",
      key: "k",
      need: { state: "OFF", unplugged: [], places: [] },
      at: { type: "connector", id: "XC1" },
      minutes: 1,
    } as const;
    expect(parseReading(look, "sound")).toEqual({ ok: true, value: { kind: "outcome", outcome: "sound" } });
    expect(parseReading(look, "Nothing to be seen")).toEqual({
      ok: true,
      value: { kind: "outcome", outcome: "sound" },
    });
    expect(parseReading(look, "12 V").ok).toBe(false);
  });
});
