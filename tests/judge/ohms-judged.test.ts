import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { judgeOhms } from "./ohms-judged.ts";
import { readDemoMachine } from "./truth/harness-file.ts";
import { TrueMachine } from "./truth/machine.ts";
import { haveNgspice, Ngspice } from "./truth/ngspice.ts";

describe.skipIf(!haveNgspice())("what ohms go through (needs ngspice)", () => {
  const machine = readDemoMachine();
  let ngspice: Ngspice;
  let sound: TrueMachine;
  beforeAll(() => {
    ngspice = new Ngspice();
    sound = new TrueMachine(machine, { build: "base", faults: [] }, ngspice);
  });
  afterAll(() => {
    ngspice.close();
  });

  test.each([
    ["S10.2", "G2-", [], "whole machine"],
    ["FL1.2", "GND-E1", [], "whole machine"],
    ["A1.X1:1", "GND-E1", ["B3.X", "B4.X", "B6.X"], "through electronics"],
    ["B3.X:3", "B3.X:2", ["A1.X1"], "through electronics"],
    ["G2+", "G2-", [], "powered"],
    ["XD1:C", "XD1:D", [], "fine"],
    ["A1.X1.harness:53", "A1.X1.harness:54", ["A1.X1"], "fine"],
    ["M2.X.harness:1", "M2.X.harness:2", ["M2.X"], "fine"],
    ["R1.1", "GND-E1", [], "fine"],
    ["GND-E1", "G2-", [], "fine"],
  ] as const)("%s to %s, off: %s: %s (needs ngspice)", (red, black, unplugged, judged) => {
    expect(judgeOhms(sound, { meter: "ohms", state: "OFF", red, black, unplugged })).toBe(judged);
  });
});
