import { describe, expect, test } from "vitest";
import { readGauge } from "../../../src/formats/tables/wire-facts.ts";

describe("readGauge()", () => {
  test.each([
    ["18", 18],
    ["AWG 18", 18],
    ["18 AWG", 18],
    ["#16", 16],
    ["16ga", 16],
    ["0", 0],
    ["00", -1],
    ["2/0", -1],
    ["4/0", -3],
    ["0000", -3],
  ])("reads %j as %d", (text, gauge) => {
    expect(readGauge(text)).toBe(gauge);
  });

  test.each(["", "0.5", "99", "5/0", "0/0", "AWG", "18 mm2"])("reads no gauge in %j", (text) => {
    expect(readGauge(text)).toBeUndefined();
  });
});
