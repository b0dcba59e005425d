import { expect, expectTypeOf, test } from "vitest";
import type { Brand } from "ohmward/base";

type WireId = Brand<string, "WireId">;
type PinId = Brand<string, "PinId">;

test("Brand keeps two kinds of id apart at compile time and leaves the value alone", () => {
  const wire = "W89" as WireId;
  expect(wire).toBe("W89");
  expectTypeOf<WireId>().toExtend<string>();
  expectTypeOf<string>().not.toExtend<WireId>();
  expectTypeOf<PinId>().not.toExtend<WireId>();
});
