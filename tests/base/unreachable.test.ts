import { expect, test } from "vitest";
import { unreachable } from "ohmward/base";

test.each([
  ["a text", "melted", '"melted"'],
  ["an object", { kind: "melted" }, '{"kind":"melted"}'],
  ["nothing", undefined, "undefined"],
  ["a number JSON cannot hold", 5n, "5"],
])("unreachable() names the case that got through: %s", (_label, value, shown) => {
  // The cast plays the part of data that got past its schema.
  expect(() => unreachable(value as never)).toThrow(
    new TypeError(`Cannot handle case: no branch is written for ${shown}`),
  );
});
