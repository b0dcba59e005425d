import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { FAULT_KINDS, formatFault, parseFault, type Fault } from "ohmward/simulation";

const texts: readonly (readonly [string, Fault])[] = [
  ["open:W78", { kind: "open", of: "W78" }],
  ["  open : XF1:1 ", { kind: "open", of: "XF1:1" }],
  ["high-resistance:XE1:1=0.25", { kind: "high-resistance", of: "XE1:1", ohm: 0.25 }],
  ["high-resistance:W78@SP13=1e3", { kind: "high-resistance", of: "W78@SP13", ohm: 1000 }],
  ["high-resistance:XE1:1=0,25", { kind: "high-resistance", of: "XE1:1", ohm: 0.25 }],
  ["high-resistance:XE1:1=1,2", { kind: "high-resistance", of: "XE1:1", ohm: 1.2 }],
  ["high-resistance:XE1:1=4k7", { kind: "high-resistance", of: "XE1:1", ohm: 4700 }],
  ["high-resistance:XE1:1=250 mohm", { kind: "high-resistance", of: "XE1:1", ohm: 0.25 }],
  ["high-resistance:XE1:1=1.2340", { kind: "high-resistance", of: "XE1:1", ohm: 1.234 }],
  ["short:W74=GND-E1,0,5", { kind: "short", of: "W74", to: "GND-E1", ohm: 0.5 }],
  ["drift:B5.ntc=1,+2", { kind: "drift", of: "B5.ntc", factor: 1, offset: 2 }],
  ["drift:B5.ntc=1.2,0.5", { kind: "drift", of: "B5.ntc", factor: 1.2, offset: 0.5 }],
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
  ["loose-terminal:W06@GND-C1=0.4", { kind: "loose-terminal", of: "W06@GND-C1", ohm: 0.4 }],
  ["loose-terminal:W06@GND-C1", { kind: "loose-terminal", of: "W06@GND-C1" }],
  ["cross-wired:XF1p:3=XF1p:4", { kind: "cross-wired", cavities: ["XF1p:3", "XF1p:4"] }],
];

describe("parseFault()", () => {
  test.each(texts)("reads %s", (text, wanted) => {
    expect(parseFault(text)).toEqual({ ok: true, value: wanted });
  });

  test.each([
    ["", "The kinds are open, high-resistance"],
    ["melted:W78", "The kinds are open"],
    ["open", "The kinds are open"],
    ["open:", "names nothing"],
    ["open:W78=3", "takes no value"],
    ["high-resistance:XE1:1", "as in high-resistance:XE1:1=0.25"],
    ["high-resistance:XE1:1=-1", '"-1" is no resistance in Ω'],
    ["high-resistance:XE1:1=5 V", "this is read in Ω, not in V"],
    ["high-resistance:XE1:1=OL", "is no resistance in Ω"],
    ["high-resistance:XE1:1=1,2,3,4,5,6,7", "too many commas"],
    ["high-resistance:XE1:1=0x10", "is no resistance in Ω"],
    ["short:W74", 'name the point it is shorted to after "="'],
    ["short:W74=GND-E1,half", '"half" is no resistance in Ω'],
    ["short:W74=GND-E1,1,half", "no position on a wire"],
    ["short:W74=GND-E1,1,101%", "no position on a wire"],
    ["bridge:XC1:4=XC1:5,1,50%", "no position on a wire"],
    ["drift:B5.ntc", "write a factor"],
    ["drift:B5.ntc=-2", "write a factor"],
    ["loose-terminal:W06", "name the wire and its stud"],
    ["cross-wired:XF1p:3", "name the second cavity"],
  ])("says what is wrong with %s", (text, why) => {
    const read = parseFault(text);
    expect(read.ok ? read.value : read.error.text).toContain(why);
  });

  test.each([
    ["high-resistance:XE1:1=1,200", ["high-resistance:XE1:1=1.2", "high-resistance:XE1:1=1200"]],
    ["loose-terminal:W06@GND-C1=1.200", ["loose-terminal:W06@GND-C1=1.2", "loose-terminal:W06@GND-C1=1200"]],
    ["drift:B5.ntc=1,2", ["drift:B5.ntc=1.2", "drift:B5.ntc=1,+2"]],
    ["short:W74=G2+,0,5,30%", ["short:W74=G2+,0,5.3%", "short:W74=G2+,0.5,30%"]],
  ])("asks about %s, and each way is read in one way", (text, ways) => {
    const read = parseFault(text);
    expect(read.ok ? [] : read.error.ways).toEqual(ways);
    for (const way of ways) {
      const again = parseFault(way);
      expect(again.ok && formatFault(again.value)).toBe(way);
      expect(read.ok ? "" : read.error.text).toContain(way);
    }
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
          if (!read.ok) expect(read.error.text.length).toBeGreaterThan(0);
        },
      ),
      { seed: 45, numRuns: 500 },
    );
  });
});

test("formatFault() writes numbers that are read back the same, whatever they are (law)", () => {
  const numbers = fc.oneof(
    fc.double({ min: 1e-6, max: 1e6, noNaN: true }),
    fc.integer({ min: 0, max: 999_999_999 }).map((n) => n / 1000),
  );
  fc.assert(
    fc.property(numbers, numbers, fc.boolean(), (first, second, isMinus) => {
      const faults: readonly Fault[] = [
        { kind: "high-resistance", of: "W1", ohm: first },
        { kind: "short", of: "W1", to: "W2", ohm: first, atPercent: second % 100 },
        { kind: "drift", of: "B1.x", factor: first, offset: (isMinus ? -1 : 1) * second + 0 },
      ];
      for (const fault of faults) expect(parseFault(formatFault(fault))).toEqual({ ok: true, value: fault });
    }),
    { seed: 45 },
  );
});

test("formatFault() writes what parseFault() reads back", () => {
  for (const [, fault] of texts) expect(parseFault(formatFault(fault))).toEqual({ ok: true, value: fault });
});
