import { shortName } from "ohmward/drawing";
import { expect, test } from "vitest";

test.each([
  ["", ""],
  ["W-1234567890123456789", "W-123456789…23456789"],
  ["twenty signs, exactly", "twenty sign… exactly"],
  ["exactly twenty signs", "exactly twenty signs"],
  // Signs are counted, not their halves.
  ["🔌".repeat(21), `${"🔌".repeat(11)}…${"🔌".repeat(8)}`],
])("shortName(%j) is %j", (name, short) => {
  expect(shortName(name)).toBe(short);
  expect([...shortName(name)].length).toBeLessThanOrEqual(20);
});
