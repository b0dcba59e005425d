import { describe, expect, test } from "vitest";
import { machineMark } from "ohmward/application";
import { demoMachine, keptMachine, servedMachine } from "../../../src/ui/state/open-machine.ts";
import { demoText, openDemo } from "../../demo-harness/open-demo.ts";

const text = demoText("firnlark-45.ohm.json");
const mark = machineMark(openDemo());

describe("the machines at hand", () => {
  test("have the mark of their data, wherever they come from", () => {
    const served = servedMachine(text);
    const kept = keptMachine({ mark, name: "Kept", fileName: "kept.csv", text });
    expect([served.ok && served.value.mark, kept?.mark, demoMachine(text).mark]).toEqual([mark, mark, mark]);
    expect([kept?.open(), demoMachine(text).open()].map((each) => each?.ok)).toEqual([true, true]);
  });

  test("are not at hand when only their name is known", () => {
    expect(keptMachine({ mark, name: "Kept", fileName: "kept.csv" })).toBeUndefined();
  });

  test("say what is wrong with data that cannot be opened", () => {
    const kept = keptMachine({ mark, name: "Kept", fileName: "kept.csv", text: "{" });
    for (const opened of [servedMachine("{"), kept?.open()])
      expect(opened).toMatchObject({ ok: false, error: [{ severity: "error" }] });
  });
});
