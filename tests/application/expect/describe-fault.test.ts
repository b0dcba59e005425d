import { describe, expect, test } from "vitest";
import { FAULT_KINDS, parseFault } from "ohmward/simulation";
import { describeFault } from "../../../src/application/expect/describe-fault.ts";

const cases: readonly (readonly [text: string, words: string])[] = [
  ["open:W78", "W78 open"],
  ["high-resistance:XE1:1=0.25", "0.25 Ω more in XE1:1"],
  ["short:W74=GND-E1,0.5", "W74 shorted to GND-E1 with 0.5 Ω"],
  ["short:W74=GND-E1,0.5,30%", "W74 shorted to GND-E1 with 0.5 Ω, 30 % along the wire"],
  ["bridge:XC1:4=XC1:5,1200", "XC1:4 and XC1:5 bridged with 1.2 kΩ"],
  ["blown:FB1.FL2", "FB1.FL2 blown"],
  ["stuck-open:S4.contact", "S4.contact stuck open"],
  ["stuck-closed:S4.contact", "S4.contact stuck closed"],
  ["stuck-on:A1.drv", "A1.drv stuck on"],
  ["stuck-off:A1.drv", "A1.drv stuck off"],
  ["drift:B5.ntc=1.2", "B5.ntc drifted to 1.2 times its value"],
  ["drift:B5.ntc=1.2,5", "B5.ntc drifted to 1.2 times its value, then 5 added"],
  ["unplugged:RT1.X", "RT1.X disconnected"],
  ["loose-terminal:W06@GND-C1", "W06@GND-C1 makes no contact"],
  ["loose-terminal:W06@GND-C1=0.4", "W06@GND-C1 loose, 0.4 Ω more"],
  ["cross-wired:XF1p:3=XF1p:4", "wires of XF1p:3 and XF1p:4 cross-wired"],
];

describe("describeFault()", () => {
  test.each(cases)("says %s in words", (text, words) => {
    const fault = parseFault(text);
    expect(fault.ok ? describeFault(fault.value) : fault.error).toBe(words);
  });

  test("knows every kind", () => {
    const kinds = new Set(cases.map(([text]) => text.slice(0, text.indexOf(":"))));
    expect([...kinds].sort()).toEqual([...FAULT_KINDS].sort());
  });
});
