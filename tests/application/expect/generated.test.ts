import { describe, expect, test } from "vitest";
import { ExpectedReadingAnswer, TableAnswer } from "ohmward/application";
import { generateHarness } from "../../generate/generate-harness.ts";
import { askChecked, open } from "../demo-machine.ts";

const document = generateHarness({ seed: 33, wires: 300 });
const machine = open(JSON.stringify(document));
const points = document.codes.slice(0, 12).flatMap(({ points: [point] }) => point ?? []);

describe("askExpect() and askTable() on a generated machine", () => {
  test.each(points)("%s has a reading that fits its schema in every state, healthy and broken", (red) => {
    const wire = document.wires.find(({ ends }) => ends.includes(red))?.id ?? "";
    expect(wire).not.toBe("");
    for (const { id: state } of document.states) {
      const setting = { build: "base", state };
      const whole = ExpectedReadingAnswer.parse(
        askChecked(machine, setting, { kind: "expected", calculateOnly: true, red }),
      );
      const faults = [`open:${wire}`];
      const broken = ExpectedReadingAnswer.parse(
        askChecked(machine, setting, { kind: "expected", calculateOnly: true, red, faults }),
      );
      expect(broken.normal).toMatchObject({ kind: whole.kind, value: whole.value });
      for (const { value, low, high } of [whole, broken]) {
        if (value === null || low === null || high === null) continue;
        expect(low).toBeLessThanOrEqual(value);
        expect(high).toBeGreaterThanOrEqual(value);
      }
      const table = TableAnswer.parse(askChecked(machine, setting, { kind: "table", item: red, faults }));
      expect(table.legs.length).toBeGreaterThan(0);
    }
  });
});
