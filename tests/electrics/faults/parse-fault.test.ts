import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { FAULT_KINDS, formatFault, parseFault, type Fault } from "ohmward/electrics";

const texts: readonly (readonly [string, Fault])[] = [
  ["open:W78", { kind: "open", of: "W78" }],
  ["  open : XF1:1 ", { kind: "open", of: "XF1:1" }],
  ["resistance:XE1:1=0.25", { kind: "resistance", of: "XE1:1", ohm: 0.25 }],
  ["resistance:W78@SP13=1e3", { kind: "resistance", of: "W78@SP13", ohm: 1000 }],
  ["short:W74=GND-E1,0.5", { kind: "short", of: "W74", to: "GND-E1", ohm: 0.5 }],
  ["short:W74=GND-E1", { kind: "short", of: "W74", to: "GND-E1", ohm: 0.05 }],
  ["short:W74=G2+,0,30%", { kind: "short", of: "W74", to: "G2+", ohm: 0, atPercent: 30 }],
  ["bridge:XC1:4=XC1:5,0.7", { kind: "bridge", between: ["XC1:4", "XC1:5"], ohm: 0.7 }],
  ["blown:FB1.FL2", { kind: "blown", of: "FB1.FL2" }],
  ["stuck-open:S4.contact", { kind: "stuck-open", of: "S4.contact" }],
  ["stuck-on:A1.drv-fan", { kind: "stuck-on", of: "A1.drv-fan" }],
  ["drift:B5.ntc=1.2", { kind: "drift", of: "B5.ntc", factor: 1.2, offset: 0 }],
  ["drift:B3.cell=1,-0.05", { kind: "drift", of: "B3.cell", factor: 1, offset: -0.05 }],
  ["unplugged:RT1.X", { kind: "unplugged", of: "RT1.X" }],
  ["loose:W06@GND-C1=0.4", { kind: "loose", of: "W06@GND-C1", ohm: 0.4 }],
  ["loose:W06@GND-C1", { kind: "loose", of: "W06@GND-C1" }],
  ["swapped:XF1p:3=XF1p:4", { kind: "swapped", cavities: ["XF1p:3", "XF1p:4"] }],
];

describe("parseFault()", () => {
  test.each(texts)("reads %s", (text, wanted) => {
    expect(parseFault(text)).toEqual({ ok: true, value: wanted });
  });

  test.each([
    ["", "the kinds are open, resistance"],
    ["melted:W78", "the kinds are open"],
    ["open", "the kinds are open"],
    ["open:", "names nothing"],
    ["open:W78=3", "takes no value"],
    ["resistance:XE1:1", "as in resistance:XE1:1=0.25"],
    ["resistance:XE1:1=-1", '"-1" is no number of ohm'],
    ["resistance:XE1:1=1,2", "as in"],
    ["resistance:XE1:1=0x10", "is no number of ohm"],
    ["short:W74", 'name what it touches after "="'],
    ["short:W74=GND-E1,half", '"half" is no number of ohm'],
    ["short:W74=GND-E1,1,half", "no place on a wire"],
    ["short:W74=GND-E1,1,101%", "no place on a wire"],
    ["bridge:XC1:4=XC1:5,1,50%", "no place on a wire"],
    ["drift:B5.ntc", "write a factor"],
    ["drift:B5.ntc=-2", "write a factor"],
    ["loose:W06", "name the wire and its stud"],
    ["swapped:XF1p:3", "name the second cavity"],
  ])("says what is wrong with %s", (text, why) => {
    const read = parseFault(text);
    expect(read.ok ? read.value : read.error).toContain(why);
  });

  test("never throws, whatever the text", () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.tuple(fc.constantFrom(...FAULT_KINDS), fc.string()).map((parts) => parts.join(":")),
        ),
        (text) => {
          const read = parseFault(text);
          if (!read.ok) expect(read.error.length).toBeGreaterThan(0);
        },
      ),
      { seed: 45, numRuns: 500 },
    );
  });
});

test("formatFault() writes what parseFault() reads back", () => {
  for (const [, fault] of texts) expect(parseFault(formatFault(fault))).toEqual({ ok: true, value: fault });
});
