import { describe, expect, test } from "vitest";
import { fusesBlown, readMeter } from "ohmward/simulation";
import { fitDemo, openDemo } from "../../demo-harness/open-demo.ts";
import { readCases } from "../../judge/cases.ts";
import { faultsOf } from "../support/case-faults.ts";

const document = openDemo();
const base = fitDemo(document, "base");

describe("fusesBlown()", () => {
  // Source: the workshop cases, worked out apart from this project, name the fuse that each short has blown.
  const shorted = readCases().filter(({ faults }) => faults.some(({ kind }) => kind === "short" || kind === "bridge"));

  test("has shorts with and without a fuse before them", () => {
    expect(shorted.length).toBeGreaterThan(4);
  });

  test.each(shorted.map((each) => [each.id, each] as const))("%s: the fuse that its short blows", (_, each) => {
    const faults = each.faults.flatMap(faultsOf);
    const told = faults.filter(({ kind }) => kind === "blown").flatMap((fault) => ("of" in fault ? [fault.of] : []));
    const found = fusesBlown(
      fitDemo(document, each.build),
      faults.filter(({ kind }) => kind !== "blown"),
    );
    expect(found.map(({ of }) => of)).toEqual(told);
  });

  // Source: a blade fuse opens at 200 % of its rating within 0.15 to 5 s (data sheets of fuses to ISO 8820-3).
  test.each([
    ["1 ohm on 5 A", 1, ["A3.F11"]],
    ["1.5 ohm on 5 A: 8.3 A hold for a while", 1.5, []],
  ] as const)("%s", (_, ohm, wanted) => {
    const found = fusesBlown(base, [{ kind: "short", of: "A3.X1.harness:8", to: "G2-", ohm }]);
    expect(found.map(({ of }) => of)).toEqual(wanted);
  });

  test("an open blows nothing, and a machine at work blows none of its own", () => {
    expect(fusesBlown(base, [{ kind: "open", of: "W30" }])).toEqual([]);
    expect(fusesBlown(base, [{ kind: "drift", of: "B5.ntc", factor: 1, offset: 0 }])).toEqual([]);
  });

  test("a blown fuse is blown in every state, and every reading says so", () => {
    // The pump is on in PRIME and in no state with the key off; its line has volts from the fuse on only while the relay is in.
    const faults = [{ kind: "short", of: "W30", to: "GND-C1", ohm: 0.05, atPercent: 60 }] as const;
    for (const state of ["KOEO", "PRIME", "RUN"]) {
      const reading = readMeter(base, {
        operatingConditions: { state, faults },
        probe: { kind: "dc-voltage", red: "A3.X1:6", black: "G2-" },
        compareWith: [],
      });
      expect(reading).toMatchObject({
        because: expect.arrayContaining([
          { code: "blown", text: expect.stringMatching(/^A3\.F10 \(15 A\) is blown by 1\d\d\.\d A\./u) as string },
        ]) as object[],
      });
      expect(reading.kind === "value" ? Math.abs(reading.value) : 0).toBeLessThan(0.01);
    }
  });
});
