import { describe, expect, test } from "vitest";
import { battery, operatingPointIn, smallMachine, voltsIn } from "../support/small-machine.ts";

const resistor = (id: string, from: string, to: string, resistanceOhm: number) => ({
  ...{ id, kind: "resistor", between: [from, to], resistanceOhm },
});

describe("a module with needs", () => {
  const inside = (feedOhm: number) =>
    smallMachine({
      terminalStuds: ["P", "N", "A", "B", "C"],
      components: [
        battery,
        { id: "F", elements: [resistor("f", "P", "A", feedOhm)] },
        {
          id: "M",
          kind: "module",
          needs: { positive: "A", negative: "N", leastVolt: 6 },
          elements: [
            resistor("own", "A", "N", 10),
            { id: "reg", kind: "source", between: ["B", "N"], role: "regulator", voltageVolt: 5, resistanceOhm: 1 },
            { id: "pull", kind: "bias", between: ["C", "B"], pull: "up", resistanceOhm: 1000 },
            { id: "down", kind: "bias", between: ["C", "N"], pull: "down", resistanceOhm: 4000 },
          ],
        },
      ],
    });

  test("works above its least voltage", () => {
    expect(voltsIn(inside(2), {}, "C")).toBeCloseTo((5 * 4000) / 5001, 9);
  });

  test("is dead below it: its sources are gone, its resistors stay", () => {
    expect(voltsIn(inside(20), {}, "C")).toBe(0);
    const { list, values, modes } = operatingPointIn(inside(20));
    expect([...modes.units]).toEqual([["M", "unfed"]]);
    expect(list.parts.filter((part, at) => values.volt[at] !== part.volt).map((part) => part.key)).toEqual(["M.reg"]);
  });

  // What wakes a control unit and what its own relay needs: common practice, no source. The main relay is pulled before there is a feed.
  const woken = (needs: object = { wake: "W", wakeOutputs: ["drv"] }) =>
    smallMachine({
      terminalStuds: ["P", "N", "A", "B", "C", "W", "E"],
      components: [
        battery,
        {
          id: "F",
          elements: [
            { id: "key", kind: "switch", between: ["P", "W"], resistanceOhm: 0.01, rest: "closed" },
            resistor("ground", "E", "N", 0.01),
            { id: "k", kind: "coil", between: ["P", "C"], resistanceOhm: 100, pullInVolt: 7, dropOutVolt: 3 },
            { id: "c", kind: "contact", between: ["P", "A"], of: "k", form: "make", resistanceOhm: 0.01 },
          ],
        },
        {
          id: "M",
          kind: "module",
          needs: { positive: "A", negative: "E", leastVolt: 6, ...needs },
          elements: [
            { id: "own", kind: "load", between: ["A", "E"], resistanceOhm: 10 },
            { id: "in", kind: "load", between: ["W", "E"], resistanceOhm: 1000 },
            { id: "drv", kind: "driver", between: ["C", "E"], side: "low", resistanceOhm: 0.1 },
            { id: "reg", kind: "source", between: ["B", "E"], role: "regulator", voltageVolt: 5, resistanceOhm: 1 },
          ],
        },
      ],
    });
  const pulls = [{ of: "M.drv", is: "on" as const }];

  test("pulls its own main relay as soon as it is woken, and works once that feeds it", () => {
    const { modes } = operatingPointIn(woken(), { settings: pulls });
    expect([[...modes.units], [...modes.energised]]).toEqual([[], ["F.k"]]);
    expect(voltsIn(woken(), { settings: pulls }, "B")).toBeCloseTo(5, 1);
  });

  test.each([
    ["its main relay does not feed it", { kind: "stuck-open", of: "F.c" }, "unfed", true],
    ["the coil of its main relay is open", { kind: "open", of: "F.k" }, "unfed", false],
    ["it is not woken", { kind: "open", of: "F.key" }, "asleep", false],
    ["its ground is open", { kind: "open", of: "F.ground" }, "asleep", false],
    ["its ground has 4 kohm", { kind: "high-resistance", of: "F.ground", ohm: 4000 }, "asleep", false],
  ] as const)("gives no 5 V where %s", (_name, fault, unit, isPulled) => {
    const situation = { settings: pulls, faults: [fault] };
    const { modes } = operatingPointIn(woken(), situation);
    expect([[...modes.units], modes.energised.has("F.k")]).toEqual([[["M", unit]], isPulled]);
    expect(voltsIn(woken(), situation, "B", "E")).toBeCloseTo(0, 12);
  });

  test("with a main relay that it can only pull when it works stays asleep", () => {
    const { modes } = operatingPointIn(woken({ wake: "W" }), {
      settings: pulls,
      faults: [{ kind: "open", of: "F.k" }],
    });
    expect([...modes.units]).toEqual([["M", "unfed"]]);
  });

  test("that lifts its own ground until its wake input is lost lets its relay chatter", () => {
    const faults = [{ kind: "high-resistance", of: "F.ground", ohm: 400 } as const];
    expect(() => operatingPointIn(woken(), { settings: pulls, faults })).toThrow('"no-steady-state"');
  });

  test("that its own consumption pulls down stays starved", () => {
    // 12 V behind 15 ohm: 4.8 V with its 10 ohm on, 12 V without.
    const situation = { settings: pulls, faults: [{ kind: "high-resistance", of: "F.c", ohm: 15 } as const] };
    expect([...operatingPointIn(woken(), situation).modes.units]).toEqual([["M", "starved"]]);
    expect(voltsIn(woken(), situation, "A")).toBeCloseTo((12 * 10) / 25, 1);
  });

  test("that would wake again once it is off has no steady state", () => {
    // Alive it switches a load on that takes its supply away.
    const harness = smallMachine({
      terminalStuds: ["P", "N", "A", "B"],
      components: [
        battery,
        { id: "F", elements: [resistor("f", "P", "A", 1), resistor("l", "A", "B", 0.5)] },
        {
          id: "M",
          kind: "module",
          needs: { positive: "A", negative: "N", leastVolt: 6 },
          elements: [{ id: "drv", kind: "driver", between: ["B", "N"], side: "low", resistanceOhm: 0.1 }],
        },
      ],
    });
    const settings = [{ of: "M.drv", is: "on" as const }];
    expect(() => operatingPointIn(harness, { settings })).toThrow(
      '{"kind":"no-steady-state","noOperatingPoint":["M"]}',
    );
    expect(voltsIn(harness, {}, "A")).toBe(12);
  });
});
