import { describe, expect, test } from "vitest";
import { MachineService, machineMark } from "ohmward/application";
import { demoMachine, keptMachine, servedMachine, type TextOpener } from "../../../src/ui/state/open-machine.ts";
import { demoText, openDemo } from "../../demo-harness/open-demo.ts";

const text = demoText("firnlark-45.ohm.json");
const mark = machineMark(openDemo());
const service = new MachineService();
const opener: TextOpener = {
  openText: (each) => Promise.resolve(service.answer("open-text", each)),
  markOf: (each) => Promise.resolve(service.answer("mark-of-text", each)),
};

describe("the machines at hand", () => {
  test("have the mark of their data, wherever they come from", async () => {
    const served = await servedMachine(text, opener);
    const kept = keptMachine({ mark, name: "Kept", fileName: "kept.csv", text }, opener);
    const demo = await demoMachine(text, opener);
    expect([served.ok && served.value.mark, kept?.mark, demo.mark]).toEqual([mark, mark, mark]);
    for (const opened of [await kept?.open(), await demo.open()])
      expect(opened).toMatchObject({ ok: true, value: { mark } });
  });

  test("are held by the service from then on, without being sent", async () => {
    await demoMachine(text, opener);
    await servedMachine("{", opener);
    expect(service.answer("mark", undefined)).toBe(mark);
    expect(service.answer("mark-of-text", "{")).toBeUndefined();
  });

  test("are not at hand when only their name is known", () => {
    expect(keptMachine({ mark, name: "Kept", fileName: "kept.csv" }, opener)).toBeUndefined();
  });

  test("say what is wrong with data that cannot be opened", async () => {
    const kept = keptMachine({ mark, name: "Kept", fileName: "kept.csv", text: "{" }, opener);
    for (const opened of [await servedMachine("{", opener), await kept?.open()])
      expect(opened).toMatchObject({ ok: false, error: [{ severity: "error" }] });
  });
});
