import { describe, expect, test } from "vitest";
import { actionsOf, ITEM_ACTIONS, type Question } from "ohmward/application";
import { ask } from "ohmward/application";
import { demo } from "./demo-machine.ts";

describe("actionsOf()", () => {
  test("nothing is asked of a zone or of a point inside a control unit; no reading is taken at a segment", () => {
    expect(actionsOf("zone")).toEqual([]);
    expect(actionsOf("inner")).toEqual([]);
    expect(actionsOf("segment")).not.toContain("expected");
    expect(actionsOf("contact")).toEqual(ITEM_ACTIONS);
  });

  test.each([
    ["contact", "A1.X1:36"],
    ["wire", "W89"],
    ["component", "B3"],
    ["connector", "B3.X"],
    ["splice", "SP13"],
    ["stud", "GND-E1"],
    ["element", "A3.F7"],
    ["code", "FE111"],
    ["net", "CAN-H"],
    ["segment", "SG13"],
  ] as const)("each action of a %s is answered, or asks which point is meant", (type, id) => {
    const questions: Readonly<Record<(typeof ITEM_ACTIONS)[number], Question>> = {
      circuit: { kind: "circuit", point: id },
      path: { kind: "path", from: id, to: "G2-" },
      "test-points": { kind: "test-points", item: id },
      expected: { kind: "expected", red: id },
      effect: { kind: "effect", item: id },
      common: {
        kind: "common",
        items: [
          { text: id, mark: "bad" },
          { text: "B4", mark: "bad" },
        ],
      },
    };
    for (const action of actionsOf(type)) {
      const { kind } = ask(demo, { build: "base", state: "KOEO" }, questions[action]);
      expect(["unknown", "not-fitted", "wrong-question", "choose-build", "choose-state"]).not.toContain(kind);
    }
  });
});
