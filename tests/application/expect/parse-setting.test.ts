import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parseSetting } from "../../../src/application/expect/parse-setting.ts";

describe("parseSetting()", () => {
  test.each([
    ["S1.run=closed", { kind: "stand", of: "S1.run", is: "closed" }],
    [" S1.run = off ", { kind: "stand", of: "S1.run", is: "off" }],
    ["A1.drv-fan=40%", { kind: "stand", of: "A1.drv-fan", is: { dutyPercent: 40 } }],
    ["throttle=-3.5", { kind: "quantity", name: "throttle", value: -3.5 }],
    ["throttle=0,5", { kind: "quantity", name: "throttle", value: 0.5 }],
    ["throttle=1.2e3", { kind: "quantity", name: "throttle", value: 1200 }],
    ["throttle=1 200", { kind: "quantity", name: "throttle", value: 1200 }],
    ["A1.drv-fan=12,5 %", { kind: "stand", of: "A1.drv-fan", is: { dutyPercent: 12.5 } }],
    ["throttle=.5", { kind: "quantity", name: "throttle", value: 0.5 }],
  ])("reads %s", (text, value) => {
    expect(parseSetting(text)).toEqual({ ok: true, value });
  });

  test.each(["", "S1.run", "=open", "S1.run=", "S1.run=shut", "a=5 V", "a=101%", "a=-1%", "a=%", "a=0x10"])(
    "does not read %j",
    (text) => {
      const read = parseSetting(text);
      expect(read.ok ? "" : read.error.text).toContain(`"${text}"`);
    },
  );

  test("asks where a number can be read in two ways, and each way is read in one", () => {
    const read = parseSetting("speed=1,200");
    expect(read.ok ? [] : read.error.ways).toEqual(["speed=1.2", "speed=1200"]);
    expect(parseSetting("speed=1.2").ok && parseSetting("speed=1200").ok).toBe(true);
  });

  test("takes the unit of the document after the number, and no other", () => {
    const unitOf = (): string => "°C";
    expect(parseSetting("t=80 °C", unitOf)).toEqual({ ok: true, value: { kind: "quantity", name: "t", value: 80 } });
    expect(parseSetting("t=80 K", unitOf).ok).toBe(false);
  });

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
