import { expect, test } from "vitest";
import { readCases, type WorkshopCase } from "./cases.ts";
import type { Played, PlayedCheck } from "./player.ts";
import { scoreOf } from "./score.ts";

const caseOf = (id: string): WorkshopCase => {
  const found = readCases().find((each) => each.id === id);
  if (found === undefined) throw new Error(`No case ${id}`);
  return found;
};
const check: PlayedCheck = {
  ...{ title: "Volts", how: "volts", state: "KOEO", answer: "12.6 V", isImplied: false, isAgain: false, believed: "" },
};
const played = (rest: Partial<Played>): Played => ({
  ...{ checks: [check], end: undefined, minutes: 5, suspects: [], shares: [], askedBack: 0 },
  ...rest,
});
const inOrder = (...names: readonly string[]): Played => played({ end: { way: "repairs in order", names } });

test("a right repair counts by its place; another name for it counts as well", () => {
  expect(scoreOf(caseOf("J24"), inOrder("part A3.K4", "fuse A3.F10"))).toMatchObject({ outcome: "first", rank: 1 });
  expect(scoreOf(caseOf("J24"), inOrder("fuse A3.F10", "relay A3.K4")).outcome).toBe("second");
  expect(scoreOf(caseOf("J24"), inOrder("a", "b", "relay A3.K4")).outcome).toBe("later");
  expect(scoreOf(caseOf("J24"), inOrder("fuse A3.F10")).outcome).toBe("missed");
});

test("one repair named alone and wrong is certain and wrong; 60 checks without an end are no end", () => {
  const certain = played({ end: { way: "one repair", names: ["wire W30"] } });
  expect(scoreOf(caseOf("J24"), certain).outcome).toBe("certain and wrong");
  expect(scoreOf(caseOf("J24"), played({ checks: Array.from({ length: 60 }, () => check) }))).toMatchObject({
    outcome: "no end",
    isInChecks: false,
  });
});

test("of two faults both must be named, together or one after the other", () => {
  const two = caseOf("J65");
  expect(scoreOf(two, inOrder("contact K10.X:2")).outcome).toBe("missed");
  expect(scoreOf(two, inOrder("fuse FB1.FL2 and contact K10.X:1")).outcome).toBe("first");
  const after = {
    ...inOrder("fuse FB1.FL2", "wire C09"),
    secondEnd: { way: "one repair" as const, names: ["contact K10.X:1"] },
  };
  expect(scoreOf(two, after).outcome).toBe("first");
});

test("where nothing electrical is wrong only that end is right", () => {
  expect(scoreOf(caseOf("J67"), played({ end: { way: "nothing electrical", names: [] } })).outcome).toBe("first");
  expect(scoreOf(caseOf("J67"), played({ end: { way: "nothing named", names: [] } })).outcome).toBe("missed");
  expect(scoreOf(caseOf("J67"), inOrder("part M2")).outcome).toBe("missed");
});
