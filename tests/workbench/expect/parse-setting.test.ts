import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parseSetting } from "../../../src/workbench/expect/parse-setting.ts";

describe("parseSetting()", () => {
  test.each([
    ["S1.run=closed", { kind: "stand", of: "S1.run", is: "closed" }],
    [" S1.run = off ", { kind: "stand", of: "S1.run", is: "off" }],
    ["A1.drv-fan=40%", { kind: "stand", of: "A1.drv-fan", is: { dutyPercent: 40 } }],
    ["throttle=-3.5", { kind: "quantity", name: "throttle", value: -3.5 }],
    ["throttle=.5", { kind: "quantity", name: "throttle", value: 0.5 }],
  ])("reads %s", (text, value) => {
    expect(parseSetting(text)).toEqual({ ok: true, value });
  });

  test.each(["", "S1.run", "=open", "S1.run=", "S1.run=shut", "a=1e3", "a=101%", "a=-1%", "a=%", "a=0x10"])(
    "does not read %j",
    (text) => {
      const read = parseSetting(text);
      expect(read.ok ? "" : read.error).toContain(`"${text}"`);
    },
  );

  test("never throws, and numbers come back (law)", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary", maxLength: 30 }), fc.integer({ min: -999, max: 999 }), (text, number) => {
        expect(typeof parseSetting(text).ok).toBe("boolean");
        expect(parseSetting(`q=${number}`)).toEqual({
          ok: true,
          value: { kind: "quantity", name: "q", value: number },
        });
      }),
      { seed: 4521 },
    );
  });
});
