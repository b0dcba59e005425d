import { describe, expect, test } from "vitest";
import { readCode } from "../../../src/application/job/read-code.ts";
import { smallMachine } from "../small-machine.ts";

const points = ["E1.X:1"];
const codes = [
  { id: "L10", label: "Lamp: high", spn: 520400, fmi: 3, points, failure: "voltage-high" },
  { id: "L11", label: "Lamp: low", spn: 520400, points, failure: "voltage-low" },
  { id: "L12", label: "Lamp: open", spn: 520401, fmi: 5, points, failure: "open" },
  { id: "L13", label: "Lamp: open, option", spn: 520402, fmi: 5, points, failure: "open", when: "OPT-A" },
  { id: "L14", label: "Lamp: odd", spn: 520403, points, failure: "erratic" },
  { id: "L15", label: "Lamp: odd too", spn: 520403, points, failure: "implausible" },
] as const;
const machine = smallMachine([{ id: "plain", label: "Plain", options: [] }], { codes: [...codes] });
const harness = machine.harness("plain");
if (!harness) throw new Error("no harness");

describe("readCode()", () => {
  // What the identifiers mean: SAE J1939-73 (3 shorted high, 4 shorted low, 5 open circuit, 6 grounded circuit).
  test.each([
    ["L10", "L10", "active"],
    [" l10 ", "L10", "active"],
    ["L10=stored", "L10", "previously-active"],
    ["L12 = ABSENT", "L12", "not-present"],
    ["SPN 520400 FMI 3", "L10", "active"],
    ["spn520400fmi3", "L10", "active"],
    ["520400/3=stored", "L10", "previously-active"],
    ["520400.4", "L11", "active"],
    ["520401 5", "L12", "active"],
  ])("reads %j as %s, %s", (text, code, status) => {
    expect(readCode(harness, text)).toEqual({ ok: true, value: { code, status } });
  });

  test.each([
    ["L99", "no DTC"],
    ["", "no DTC"],
    ["L10=often", "no DTC"],
    ["520400", "no DTC"],
    ["520400/5", "but not with FMI 5. It has: L10 (FMI 3, Lamp: high); L11 (FMI not given, Lamp: low)."],
    ["520400/0", "but not with FMI 0"],
    ["1/3", "no DTC of SPN 1"],
    ["L13", "no DTC"],
    ["520402/5", "no DTC of SPN 520402"],
    // Two codes of the number would do.
    ["520403/2", "but not with FMI 2"],
  ])("does not guess at %j", (text, words) => {
    const read = readCode(harness, text);
    expect(read.ok ? "" : `${read.error.message} ${read.error.hint}`).toContain(words);
  });
});
