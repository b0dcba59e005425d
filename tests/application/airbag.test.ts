import { describe, expect, test } from "vitest";
import { ask, machineOf, writeAnswer, type Question } from "ohmward/application";
import { startJob } from "ohmward/diagnosis";
import { airbagMachine } from "../measurement-safety/airbag-machine.ts";

const harness = airbagMachine();
const machine = machineOf(harness.document);
const states = harness.document.states.map(({ id }) => id);
const wires = ["1", "2", "3", "4", "5", "6"];
const pins = ["A7.X:1", "CC.X1:1", "CC.X1:2", "CC.X2:1", "CC.X2:2", "SQ.X:1", "SQ.X:2", "BT.X:1", "BT.X:2"];

/** Every answer in every state, as data and as text. */
function* answers(questions: readonly Question[]) {
  for (const state of states)
    for (const question of questions) {
      const answer = ask(machine, { build: "base", state }, question);
      yield { answer, text: writeAnswer(answer), of: `${state} ${JSON.stringify(question)}` };
    }
}

describe("an airbag system of which one name tells", () => {
  test("test points: none, with the reason and the maker's procedure", () => {
    const questions = [...wires, ...pins, "SQ", "BT", "CC"].map((item): Question => ({ kind: "test-points", item }));
    for (const { answer, text, of } of answers(questions)) {
      if (answer.kind !== "test-points") throw new Error(`${of}: ${answer.kind}`);
      expect(answer.points, of).toEqual([]);
      expect(text, of).toContain("maker's procedure");
    }
  });

  test("expected reading: no value and no lead in any meter, not even to understand the circuit", () => {
    const meters = ["dc-voltage", "resistance", "voltage-drop", "test-lamp", "duty-cycle"] as const;
    const questions = [
      ...pins.flatMap((red) =>
        meters.flatMap((meter) =>
          [true, false].map((calculateOnly): Question => ({
            kind: "expected",
            red,
            black: "GND",
            meter,
            calculateOnly,
          })),
        ),
      ),
      { kind: "expected" as const, red: "SQ.X:1", black: "SQ.X:2", meter: "resistance" as const, calculateOnly: true },
      {
        kind: "expected" as const,
        red: "CC.X1:1",
        black: "CC.X1:2",
        meter: "resistance" as const,
        unplugged: ["A7.X"],
      },
      ...wires.map((red): Question => ({ kind: "expected", red, meter: "dc-current", calculateOnly: true })),
    ];
    for (const { answer, text, of } of answers(questions)) {
      if (answer.kind === "wrong-question") continue;
      expect(answer, of).toMatchObject({ kind: "refused", canBeMeasured: false, value: null });
      expect(text, of).toContain("maker's procedure");
    }
  });

  test("the connectors of the system are not opened for any other reading", () => {
    const questions: readonly Question[] = ["A7.X", "CC.X1", "CC.X2", "SQ.X", "BT.X"].map((connector) => ({
      kind: "expected",
      red: "BATT",
      black: "GND",
      unplugged: [connector],
    }));
    for (const { answer, text, of } of answers(questions)) {
      expect(answer.kind, of).toBe("wrong-question");
      expect(text, of).toContain("do not open or touch");
    }
  });

  test("a job on it suggests no check; one on the lamp beside it goes on and keeps off", () => {
    const complaint = { words: "lamp dark", conditions: {}, recentWork: [] };
    const stamp = { at: "2026-02-03T08:00:00.000Z", writer: "test" };
    const job = (name: string) =>
      startJob(harness, { id: "J", complaint, symptoms: [{ item: name, is: "bad" }], stamp });
    for (const part of ["SQ", "BT"]) expect(job(part)).toMatchObject({ ok: false, error: { kind: "forbidden" } });
    const lamp = job("LA");
    if (!lamp.ok) throw new Error(lamp.error.kind);
    const touched = [...lamp.value.model.checks.keys()].join(" ");
    expect(touched).not.toMatch(/A7\.X|CC\.X|SQ\.X|BT\.X/u);
  });
});
