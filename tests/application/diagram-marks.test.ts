import { formatQuantity } from "ohmward/base";
import { describe, expect, test } from "vitest";
import { ask, diagramMarks, machineOf } from "ohmward/application";
import { isGuarded } from "ohmward/measurement-safety";
import { openDemo } from "../demo-harness/open-demo.ts";
import { fitMadeUpMachine } from "../measurement-safety/made-up-machine.ts";

const machine = machineOf(openDemo());
const item = (type: "component" | "contact", id: string) => ({ type, id });

describe("marks of a circuit diagram", () => {
  test.each([
    ["M2", "PRIME"],
    ["B3", "KOEO"],
    ["Y8", "RUN"],
  ])(
    "of %s in %s are what a reading between the same two points says, permitted where test points say so",
    (of, state) => {
      const setting = { build: "base", state };
      const marks = diagramMarks(machine, setting, { of: item("component", of) });
      expect(marks.size).toBeGreaterThan(4);
      for (const [point, { text, permitted }] of marks) {
        if (text === "black lead") continue;
        const answer = ask(machine, setting, {
          kind: "expected",
          meter: "dc-voltage",
          red: point,
          calculateOnly: true,
        });
        if (answer.kind !== "value") throw new Error(`${point}: ${answer.kind}`);
        expect([point, text]).toEqual([point, formatQuantity(answer.value ?? NaN, "V")]);
        const found = ask(machine, setting, { kind: "test-points", item: point });
        if (found.kind !== "test-points") throw new Error(`${point}: ${found.kind}`);
        const may = found.points.some(({ meters }) => meters.includes("dc-voltage"));
        if (permitted) expect([point, may]).toEqual([point, true]);
      }
    },
  );

  test("change with a fault that is inserted", () => {
    const setting = { build: "base", state: "PRIME" };
    const of = item("component", "M2");
    const [sound, faulty] = [
      diagramMarks(machine, setting, { of }),
      diagramMarks(machine, setting, { of, conditions: { faults: ["open:W30"] } }),
    ];
    expect(faulty.get("M2.X.harness:1")?.text).not.toBe(sound.get("M2.X.harness:1")?.text);
  });

  test("are none on a line of an airbag", () => {
    const harness = fitMadeUpMachine();
    const guarded = [...harness.fitted.components.keys()].filter((id) => isGuarded(harness, item("component", id)));
    expect(guarded.length).toBeGreaterThan(0);
    const made = machineOf(harness.document);
    for (const id of guarded)
      for (const { id: state } of harness.document.states)
        expect(diagramMarks(made, { build: harness.build.id, state }, { of: item("component", id) }).size).toBe(0);
  });
});
