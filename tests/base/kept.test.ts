import { addTo, keptFor, keptIn } from "ohmward/base";
import { describe, expect, test } from "vitest";

describe("keptFor() and keptIn()", () => {
  test("work a value out once a key, also where it is undefined", () => {
    let made = 0;
    const answer = keptFor((key: { readonly name: string }) => {
      made++;
      return key.name === "" ? undefined : key.name.length;
    });
    const [full, empty] = [{ name: "W78" }, { name: "" }];
    expect([answer(full), answer(full), answer(empty), answer(empty), made]).toEqual([3, 3, undefined, undefined, 2]);
    expect(answer({ name: "W78" })).toBe(3);
    expect(made).toBe(3);
  });

  test("keep nothing of a value whose making failed", () => {
    const map = new Map<string, number>();
    const fail = (): number => {
      throw new Error("no");
    };
    expect(() => keptIn(map, "a", fail)).toThrow("no");
    expect(keptIn(map, "a", () => 1)).toBe(1);
    expect(keptIn(map, "a", fail)).toBe(1);
  });
});

test("addTo() gathers members by key in the order they come", () => {
  const map = new Map<string, number[]>();
  for (const [key, member] of [
    ["a", 1],
    ["b", 2],
    ["a", 3],
  ] as const)
    addTo(map, key, member);
  expect([...map]).toEqual([
    ["a", [1, 3]],
    ["b", [2]],
  ]);
});
