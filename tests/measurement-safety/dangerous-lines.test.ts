import { describe, expect, test } from "vitest";
import { findProbePoints, isContactPermitted } from "ohmward/measurement-safety";
import { ask, pointIds, ruleOf } from "./ask.ts";
import { fitMadeUpMachine, stateOf } from "./made-up-machine.ts";

const machine = fitMadeUpMachine();
/** The same with rollers that do not turn. */
const calm = fitMadeUpMachine({ zones: ["CALM", "ROLLERS"].map((id) => ({ id, label: id, hazards: [] })) });
const states = machine.document.states.map((state) => state.id);

describe("findProbePoints() on airbag and high-voltage lines", () => {
  test.each([
    ["W1", "airbag", "the labelled line of the tensioner"],
    ["W2", "airbag", "its other line, which has no label"],
    ["SQ", "airbag", "the tensioner itself"],
    ["AM.X:1", "airbag", "the pin of its module"],
    ["W4", "high-voltage", "the labelled high-voltage line"],
    ["W5", "high-voltage", "the far side of its fuse, which has no label"],
    ["HF.F", "high-voltage", "the fuse, test windows and all"],
    ["HH", "high-voltage", "the heater"],
  ])("%s: no point at all, because of %s (%s)", (what, rule) => {
    for (const state of states) {
      const { points, refused } = ask(machine, what, state);
      expect(points).toEqual([]);
      expect(refused.length).toBeGreaterThan(3);
      for (const refusal of refused) {
        expect(refusal.rule, refusal.id).toBe(rule);
        expect(refusal.instead, refusal.id).toBeUndefined();
      }
    }
  });

  test("the reason is a sentence that sends to the maker's procedure", () => {
    for (const what of ["W1", "W4"])
      for (const { reason } of ask(machine, what, "ISO").refused) expect(reason).toMatch(/maker's procedure/u);
  });

  test("a connector that carries such a line is not opened for its other lines", () => {
    const findings = ask(machine, "AM.X:3", "OFF");
    for (const contact of ["front-probe@AM.X.harness:3", "in-line@AM.X.harness:3~TA"])
      expect(ruleOf(findings, contact), contact).toBe("airbag-or-high-voltage-beside");
    expect(pointIds(findings, "P2")).toEqual(["in-line@PM.X.harness:2~TP"]);
  });

  test("the danger does not pass through a module or onto a line that is labelled otherwise", () => {
    expect(pointIds(ask(machine, "W3", "OFF"))).not.toEqual([]);
    expect(pointIds(ask(machine, "CH", "OFF"))).toContain("tip@CH");
  });
});

describe("findProbePoints() where the document says little", () => {
  test("a boosted line that names no states is taken as boosted unless isolated", () => {
    expect(pointIds(ask(calm, "W7", "OFF"))).toEqual(["clamp@W7"]);
    expect(pointIds(ask(machine, "W7", "ISO"))).toContain("front-probe@LV.X.harness:1");
    expect(ruleOf(ask(machine, "LV.X:2", "ON"), "front-probe@LV.X.harness:2")).toBe("boosted-line-beside");
  });

  test("a line of which nothing is known may be one of the airbag or high-voltage lines of the machine", () => {
    for (const state of states) {
      const { points, refused } = ask(machine, "ND.X:1", state);
      expect(points).toEqual([]);
      for (const { rule } of refused) expect(rule).toBe("line-unknown");
    }
  });

  test("a wire without a route may run where something turns", () => {
    expect(ruleOf(ask(machine, "W7", "OFF"), "clamp@W7")).toBe("turning-parts");
    expect(ruleOf(ask(calm, "W3", "RUN"), "clamp@W3")).toBe("place-unknown");
  });

  test("unknown terminal size: no front-probe; unknown line or place: said so, and no lamp", () => {
    const declared = fitMadeUpMachine({
      statements: [{ about: "W9", what: "harmless", by: "R. Tester", on: "2026-02-03", reason: "followed by eye" }],
      zones: [
        { id: "CALM", label: "Cab", hazards: [] },
        { id: "ROLLERS", label: "Between the rollers" },
      ],
    });
    const findings = ask(declared, "ND.X:1", "OFF");
    expect(ruleOf(findings, "front-probe@ND.X.harness:1")).toBe("terminal-size-unknown");
    expect(ruleOf(findings, "in-line@ND.X.harness:1")).toBe("no-adapter");
    expect(ruleOf(findings, "back-probe@ND.X.harness:1")).toBe("no-back-probe-unsealed");
    const post = findings.points.find((point) => point.id === "tip@FR");
    expect(post).toMatchObject({ meters: ["dc-voltage"], isEstimated: true, minutes: 5 });
    expect(post?.cautions.join(" ")).toContain("does not say what this line is for");
    expect(post?.cautions.join(" ")).toContain("does not say where this is");
  });

  test("what turns in every state is never reached by hand", () => {
    for (const state of states) {
      expect(ruleOf(ask(machine, "RO", state), "tip@RO"), state).toMatch(/^(?:turning-parts|boosted-line)$/u);
      expect(pointIds(ask(machine, "RO", state))).not.toContain("tip@RO");
    }
  });

  test("nothing asked about gives nothing", () => {
    const { points, refused } = findProbePoints(machine, { nodes: [] }, stateOf(machine, "OFF"));
    expect([points, refused]).toEqual([[], []]);
  });
});

describe("findProbePoints() meters on the made-up machine", () => {
  const metersAt = (what: string, state: string, id: string): readonly string[] | undefined =>
    ask(machine, what, state).points.find((point) => point.id === id)?.meters;

  test("an isolator in the negative cable leaves the negative post on the battery, not the machine", () => {
    expect(metersAt("BN", "ISO", "tip@BN")).toEqual(["dc-voltage"]);
    expect(metersAt("BP", "ISO", "tip@BP")).toContain("resistance");
    expect(metersAt("CH", "ISO", "tip@CH")).toContain("resistance");
    expect(metersAt("CH", "OFF", "tip@CH")).toEqual(["dc-voltage"]);
  });

  test("no ohms into the device side of a module, and no lamp at it on a battery line", () => {
    expect(metersAt("PM.X.device:1", "ISO", "in-line@PM.X.device:1~TP")).toEqual(["dc-voltage"]);
    expect(metersAt("PM.X:1", "ISO", "in-line@PM.X.harness:1~TP")).toEqual(["dc-voltage", "resistance"]);
    expect(metersAt("BP", "ISO", "tip@BP")).toContain("test-lamp");
  });
});

describe("isContactPermitted() on the made-up machine", () => {
  test("names the rule for a splice-like place and for the wrong kind of place", () => {
    const off = stateOf(machine, "OFF");
    expect(isContactPermitted(machine, off, { point: "CH", method: "front-probe", meter: "dc-voltage" })).toMatchObject(
      {
        kind: "refused",
        rule: "wrong-place",
      },
    );
    expect(isContactPermitted(machine, off, { point: "W1", method: "clamp", meter: "clamp" })).toMatchObject({
      kind: "refused",
      rule: "airbag",
    });
  });
});
