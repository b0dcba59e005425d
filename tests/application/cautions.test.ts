import { describe, expect, test } from "vitest";
import { MAKER_FIRST } from "ohmward/measurement-safety";
import type { Answer, Question } from "ohmward/application";
import { askChecked, askDemo, demo } from "./demo-machine.ts";
import { smallMachine } from "./small-machine.ts";

const lamp = smallMachine([{ id: "bare", label: "Bare", options: [] }]);

function cautions(question: Question, state?: string): readonly string[] {
  const answer = askChecked(lamp, state === undefined ? {} : { state }, question);
  return "cautions" in answer ? answer.cautions : [];
}

describe("cautions of an answer", () => {
  test("every kind of answer says that the maker comes first", () => {
    const questions: readonly Question[] = [
      { kind: "circuit", point: "B3" },
      { kind: "path", from: "A1.X1:36", to: "B3" },
      { kind: "path", from: "SP11", to: "SP11" },
      { kind: "common", items: ["B3", "B4"].map((text) => ({ text, mark: "bad" })) },
      { kind: "effect", item: "W78" },
      { kind: "test-points", item: "B3" },
      { kind: "find", text: "rail" },
    ];
    for (const question of questions) {
      const answer: Answer = askChecked(demo, { build: "base" }, question);
      expect("cautions" in answer && answer.cautions, question.kind).toContain(MAKER_FIRST);
    }
  });

  test("match zone, net, component and state, and hold everywhere where nothing is named", () => {
    expect(cautions({ kind: "circuit", point: "E1" })).toEqual([
      MAKER_FIRST,
      "Everywhere.",
      "At the dash.",
      "On the lamp net.",
    ]);
    expect(cautions({ kind: "circuit", point: "F1.1" }, "ON")).toEqual(
      expect.arrayContaining(["Everywhere.", "On the lamp net.", "With the key on."]),
    );
    expect(cautions({ kind: "effect", item: "W3" })).toEqual([MAKER_FIRST, "Everywhere."]);
  });

  test("a search warns of no zone: it sends nobody anywhere", () => {
    expect(cautions({ kind: "find", text: "lamp" }, "ON")).toEqual([MAKER_FIRST, "Everywhere.", "With the key on."]);
  });

  test.each([
    { kind: "circuit", point: "R9" },
    { kind: "circuit", point: "W8" },
    { kind: "path", from: "R9.X:1", to: "A9.X" },
    { kind: "effect", item: "R9.X" },
    { kind: "test-points", item: "R9.X:2" },
    { kind: "find", text: "igniter" },
    { kind: "find", text: "W8" },
  ] satisfies readonly Question[])("an airbag circuit comes first and suggests no check: %j", (question) => {
    expect(cautions(question)[0]).toMatch(
      /^WARNING: do not touch SQUIB\. It belongs to an airbag .* No test is suggested/u,
    );
  });

  test.each(["airbag", "high-voltage"] as const)("where to probe a line of kind %s gives no point at all", (kind) => {
    const nets = [
      { id: "LAMP", kind: "supply" as const },
      { id: "SQUIB", kind },
      { id: "GND", kind: "ground" as const },
    ];
    const machine = smallMachine([{ id: "bare", label: "Bare", options: [] }], { nets });
    const answer = askChecked(machine, {}, { kind: "test-points", item: "W8" });
    expect(answer.kind === "test-points" && answer.points).toEqual([]);
    expect(answer.kind === "test-points" && answer.refused.length).toBeGreaterThan(0);
    expect("cautions" in answer && answer.cautions[0]).toMatch(/^WARNING: do not touch SQUIB/u);
    const lampAnswer = askChecked(machine, {}, { kind: "test-points", item: "F1.2" });
    expect(lampAnswer.kind === "test-points" && lampAnswer.points.length).toBeGreaterThan(0);
  });

  test("injector lines of the demo machine carry the caution of the document", () => {
    const { cautions: found } = askDemo("path", { kind: "path", from: "A1.X1:55", to: "A1.X1:56" });
    expect(found.some((text) => text.includes("65 V"))).toBe(true);
    const rail = askDemo("path", { kind: "path", from: "A1.X1:36", to: "B3.X:3" });
    expect(rail.cautions.some((text) => text.includes("65 V"))).toBe(false);
  });
});
