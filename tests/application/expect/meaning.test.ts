import { describe, expect, test } from "vitest";
import { bandOf, meaningOf, shortReading, type ExpectedReadingAnswer } from "ohmward/application";

type Reading = Pick<ExpectedReadingAnswer, "kind" | "value" | "unit" | "low" | "high">;
const none = { value: null, low: null, high: null } as const;

describe("shortReading(), bandOf() and meaningOf()", () => {
  test.each<[Reading, string, string, RegExp]>([
    [
      { kind: "value", value: 12.6371, unit: "V", low: 12.2, high: 12.8 },
      "12.64 V",
      "12.2 V to 12.8 V",
      /Within limits/u,
    ],
    [
      { kind: "value", value: 0.00003, unit: "V", low: -0.0002, high: 0.0002 },
      "0 V",
      "-0.2 mV to 0.2 mV",
      /About 0 V/u,
    ],
    [{ kind: "value", value: -0.00003, unit: "V", low: -0.1, high: 0.1 }, "0 V", "-0.1 V to 0.1 V", /About 0 V/u],
    [{ kind: "value", value: 0.49814, unit: "Ω", low: 0.267, high: 0.729 }, "0.5 Ω", "0.3 Ω to 0.7 Ω", /0\.5 Ω/u],
    [{ kind: "value", value: 30000.06, unit: "Ω", low: 29e3, high: 31e3 }, "30 kΩ", "29 kΩ to 31 kΩ", /30 kΩ/u],
    [{ kind: "value", value: 60, unit: "%", low: 59, high: 61 }, "60 %", "59 % to 61 %", /60 %/u],
    [{ kind: "floating", unit: "V", ...none }, "floating point, not 0 V", "", /not 0 V/u],
    [{ kind: "overload", unit: "Ω", ...none }, "OL (over range), open path", "", /opposite of 0 Ω/u],
    [{ kind: "overload", unit: "A", ...none }, "OL (over range)", "", /highest range/u],
    [{ kind: "refused", unit: "Ω", ...none }, "do not measure in this state", "", /does damage/u],
    [{ kind: "contradictory", unit: "V", ...none }, "no value, the sources contradict each other", "", /no value/u],
    [{ kind: "no-steady-state", unit: "V", ...none }, "no value, the machine does not settle", "", /no value/u],
  ])("%o", (reading, short, band, meaning) => {
    expect([shortReading(reading), bandOf(reading)]).toEqual([short, band]);
    expect(meaningOf(reading)).toMatch(meaning);
  });
});
