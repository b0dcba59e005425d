import { complaintEvidence, signShares } from "ohmward/diagnosis";
import type { Fault } from "ohmward/simulation";
import { describe, expect, test } from "vitest";
import { demo } from "../demo-job.ts";

const harness = demo();
const codeOf = (id: string) => {
  const found = harness.document.codes.find((code) => code.id === id);
  if (!found) throw new Error(id);
  return found;
};
const setBy = (fault: Fault, ids: readonly string[]): readonly string[] => {
  const { codes } = signShares(harness, { codes: ids.map(codeOf), items: [] }, [[], [fault]]);
  return [...codes].filter(([, shares]) => (shares[0] ?? 0) > 0.5).map(([{ id }]) => id);
};

const sensorCodes = ["FE111", "FE112", "FE121", "FE122", "FE141", "FE142", "FE151", "FE152", "FE161", "FE171"];

describe("signShares() of codes", () => {
  // Source: complaints of the faults X04, X05, X06, X12, X17, X18 of the demo machine (invented; reasoned and computed apart from this code).
  test.each([
    ["shared return open: all high", { kind: "open", of: "W78" }, sensorCodes, ["FE111", "FE121", "FE141", "FE151"]],
    [
      "5 V branch on the block: all low, coolant normal",
      { kind: "short", of: "W74", to: "G2-", ohm: 0.05 },
      sensorCodes,
      ["FE112", "FE122", "FE152", "FE161"],
    ],
    ["one leg of the return open: coolant high only", { kind: "open", of: "W81" }, sensorCodes, ["FE141"]],
    [
      "coolant line on the block: coolant low only",
      { kind: "short", of: "W92", to: "G2-", ohm: 0.05 },
      sensorCodes,
      ["FE142"],
    ],
    ["signal of a pulled-down pin open: low, not high", { kind: "open", of: "B3.X:3" }, sensorCodes, ["FE112"]],
    ["fan terminal out: open", { kind: "open", of: "XF1:1" }, ["FE211", "FE212"], ["FE211"]],
    ["head pass-through open: injector 1 open", { kind: "open", of: "XP1:2" }, ["FE311", "FE321", "FE351"], ["FE311"]],
    [
      "lead on the rail trough: bank 1 short",
      { kind: "short", of: "W105", to: "G2-", ohm: 0.3 },
      ["FE311", "FE351", "FE352"],
      ["FE351"],
    ],
    ["terminator off: bus errors", { kind: "unplugged", of: "RT1.X" }, ["FE412", "FE141"], ["FE412"]],
    ["healthy but for another line", { kind: "open", of: "W32" }, sensorCodes, []],
  ] as const)("%s", (_name, fault, asked, set) => {
    expect(setBy(fault, asked)).toEqual(set);
  });
});

describe("signShares() of functions", () => {
  test.each([
    ["M1", { kind: "open", of: "XT1:1" }, true],
    ["M1", { kind: "open", of: "W92" }, false],
    ["R1", { kind: "blown", of: "FB1.FL2" }, true],
    ["M2", { kind: "blown", of: "A3.F10" }, true],
    ["M2", { kind: "blown", of: "A3.F8" }, false],
    ["B5", { kind: "open", of: "W81" }, true],
  ] as const)("%s with %j is disturbed: %s", (item, fault, isBad) => {
    const { items } = signShares(harness, { codes: [], items: [item] }, [[], [fault]]);
    expect((items.get(item)?.[0] ?? 0) > 0.5).toBe(isBad);
  });
});

describe("complaintEvidence()", () => {
  const sets: readonly (readonly Fault[])[] = [[], [{ kind: "open", of: "W78" }], [{ kind: "open", of: "W81" }]];
  const evidence = (
    codes: readonly (readonly [string, "active" | "previously-active" | "not-present"])[],
    symptoms: readonly (readonly [string, "bad" | "good"])[] = [],
  ) => complaintEvidence(harness, { codes: new Map(codes), symptoms: new Map(symptoms) }, sets);
  const of = (key: string, list: ReturnType<typeof evidence>): readonly number[] => [
    ...(list.find((each) => each.key === key)?.likelihoods ?? []),
  ];

  test("a code speaks for what sets it; absent, against; stored, less; unmentioned beside others, a little", () => {
    const [both = 0, one = 0] = of("code FE111", evidence([["FE111", "active"]]));
    expect(both / one).toBeGreaterThan(20);
    const [bothAbsent = 0, oneAbsent = 0] = of("code FE111", evidence([["FE111", "not-present"]]));
    expect(oneAbsent / bothAbsent).toBeGreaterThan(10);
    const [bothStored = 0, oneStored = 0] = of("code FE111", evidence([["FE111", "previously-active"]]));
    expect(bothStored / oneStored).toBeGreaterThan(1.5);
    expect(bothStored / oneStored).toBeLessThan(both / one);
    const [bothSilent = 0, oneSilent = 0] = of("code FE111", evidence([["FE141", "active"]]));
    expect(oneSilent / bothSilent).toBeGreaterThan(1.5);
    expect(oneSilent / bothSilent).toBeLessThan(oneAbsent / bothAbsent);
  });

  test("a good function speaks against what would disturb it", () => {
    const [both = 0, one = 0] = of("function B3", evidence([], [["B3", "good"]]));
    expect(one / both).toBeGreaterThan(5);
  });

  test("gives something else a likelihood of its own, last", () => {
    for (const each of evidence([["FE111", "active"]], [["B3", "bad"]])) {
      expect(each.likelihoods).toHaveLength(3);
      expect(each.likelihoods[2]).toBe(each.even);
    }
  });

  test("a function of which nothing can be read says nothing, and what is known beside it still counts", () => {
    // The feed of the diagnostic connector ends in open cavities: no consumer, no pin of a control unit.
    expect(evidence([], [["DIAG-BATT", "bad"]])).toEqual([]);
    expect(evidence([["FE111", "active"]], [["DIAG-BATT", "bad"]]).map(({ key }) => key)).toContain("code FE111");
    const { items } = signShares(harness, { codes: [], items: ["DIAG-BATT"] }, sets);
    expect(items.get("DIAG-BATT")).toHaveLength(2);
  });
});
