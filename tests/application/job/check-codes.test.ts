import { describe, expect, test } from "vitest";
import { checkCodes, findCheck } from "../../../src/application/job/check-codes.ts";
import { begin } from "./begin.ts";

const checks = begin({ codes: ["FE161"] }).state.model.checks;

describe("checkCodes()", () => {
  test("gives every check a name of its own, the same in every job", () => {
    const codes = checkCodes(checks);
    expect(codes.size).toBe(checks.size);
    expect(new Set(codes.values()).size).toBe(checks.size);
    const again = checkCodes(new Map(checks));
    expect(again).toEqual(codes);
  });

  test("findCheck() knows names, longer ones and keys", () => {
    for (const [key, code] of [...checkCodes(checks)].slice(0, 40)) {
      for (const text of [code, code.toUpperCase(), ` ${key} `]) {
        const found = findCheck(checks, text);
        expect(found.ok && found.value.key).toBe(key);
      }
    }
  });

  test.each(["", "zz", "00", "dc-voltage", "ffffffffffffffff", "constructor"])("findCheck() refuses %j", (text) => {
    expect(findCheck(checks, text)).toMatchObject({ ok: false, error: { reason: "wrong-input" } });
  });

  test("findCheck() says so where a beginning fits several checks", () => {
    // Three digits tell at most 4,096 apart: among more checks some must agree.
    const first = [...checks.values()][0];
    if (!first) throw new Error("no check");
    const many = new Map(
      Array.from({ length: 5000 }, (_, index) => [`k${index}`, { ...first, key: `k${index}` }] as const),
    );
    const codes = [...checkCodes(many).values()].map((code) => code.slice(0, 3));
    const twice = codes.find((code, index) => codes.indexOf(code) !== index) ?? "";
    const found = findCheck(many, twice);
    expect(found.ok ? "" : found.error.problems[0]?.message).toMatch(/fits \d+ tests/u);
  });
});
