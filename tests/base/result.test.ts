import { describe, expect, test } from "vitest";
import { err, ok, type Result } from "ohmward/base";

describe("Result", () => {
  test("ok() carries the value and err() the failure", () => {
    expect(ok(5)).toEqual({ ok: true, value: 5 });
    expect(err("no such pin")).toEqual({ ok: false, error: "no such pin" });
  });

  test("a test of `ok` tells the compiler which case it is", () => {
    const side = (value: number): Result<number, string> => (value % 2 === 0 ? ok(value / 2) : err("odd"));
    const even = side(8);
    const odd = side(7);
    expect(even.ok ? even.value : even.error).toBe(4);
    expect(odd.ok ? odd.value : odd.error).toBe("odd");
  });
});
