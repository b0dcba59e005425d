import { describe, expect, test } from "vitest";
import {
  evaluateRules,
  METHODS,
  RULES,
  type ContactFacts,
  type Meter,
  type Method,
  type PlaceKind,
  type Rule,
} from "ohmward/measurement-safety";

/** A stud on a battery line of an isolated machine: nothing is refused there. */
const HARMLESS: ContactFacts = {
  method: "tip",
  place: "stud",
  netKinds: new Set(["battery-power"]),
  isBoostedNow: false,
  isOnBattery: false,
  connectorCarries: new Set(),
  isConnectorBoostedNow: false,
  conditions: ["battery-disconnected"],
  isAtRest: true,
  isMachineBusy: false,
  isPlaceUnknown: false,
  isUnknownBesideGuarded: false,
  isUnknownNow: false,
  hazards: [],
  isPermitMissing: false,
  isAdapterMissing: false,
  isOutOfReach: false,
  isTerminalSizeUnknown: false,
};
const FRONT: Partial<ContactFacts> = { method: "front-probe", place: "contact", side: "harness" };
const CONTACT: Partial<ContactFacts> = { place: "contact", side: "harness" };

interface Case {
  readonly rule: string;
  readonly on: Partial<ContactFacts>;
  readonly off: Partial<ContactFacts>;
  readonly meter?: Meter;
}

// One row or more for every row of the table: facts it speaks of, and facts as near as can be that it does not.
const cases: readonly Case[] = [
  { rule: "airbag", on: { netKinds: new Set(["airbag"]) }, off: { netKinds: new Set(["supply"]) } },
  { rule: "airbag", on: { method: "clamp", place: "wire", netKinds: new Set(["airbag", "signal"]) }, off: {} },
  { rule: "high-voltage", on: { netKinds: new Set(["high-voltage"]) }, off: { netKinds: new Set(["boosted"]) } },
  {
    rule: "airbag-or-high-voltage-beside",
    on: { ...FRONT, connectorCarries: new Set(["signal", "airbag"]) },
    off: { ...FRONT, connectorCarries: new Set(["signal", "boosted"]) },
  },
  {
    rule: "airbag-or-high-voltage-beside",
    on: { ...CONTACT, method: "in-line", connectorCarries: new Set(["high-voltage"]) },
    off: { method: "tip", connectorCarries: new Set(["high-voltage"]) },
  },
  {
    rule: "airbag-or-high-voltage-beside",
    on: { ...CONTACT, method: "mating-adapter", connectorCarries: new Set(["airbag"]) },
    off: { ...CONTACT, method: "mating-adapter", connectorCarries: new Set(["supply"]) },
  },
  { rule: "line-unknown", on: { isUnknownBesideGuarded: true }, off: {} },
  { rule: "line-unknown-not-at-rest", on: { isUnknownNow: true, isBoostedNow: true }, off: { isBoostedNow: true } },
  { rule: "place-unknown", on: { isPlaceUnknown: true }, off: { method: "clip", isPlaceUnknown: true } },
  {
    rule: "no-piercing",
    on: { method: "pierce", place: "wire" },
    off: { method: "clamp", place: "wire" },
  },
  { rule: "no-piercing", on: { method: "pierce", place: "splice" }, off: { ...FRONT } },
  {
    rule: "no-back-probe-sealed",
    on: { ...CONTACT, method: "back-probe", isSealed: true },
    off: { ...CONTACT, method: "back-probe", isSealed: false },
  },
  {
    rule: "no-back-probe-unsealed",
    on: { ...CONTACT, method: "back-probe", isSealed: false },
    off: { ...CONTACT, method: "back-probe", isSealed: true },
  },
  { rule: "no-tip-in-socket", on: { ...CONTACT, method: "tip-in-socket" }, off: { ...FRONT } },
  { rule: "no-tip-in-socket", on: { ...CONTACT, method: "tip" }, off: { method: "tip", place: "stud" } },
  { rule: "no-device-half", on: { ...FRONT, side: "device" }, off: { ...FRONT } },
  { rule: "nothing-bare", on: { method: "tip", place: "splice" }, off: { method: "tip", place: "wire" } },
  { rule: "nothing-bare", on: { method: "clip", place: "inner" }, off: { method: "clip", place: "stud" } },
  { rule: "wrong-place", on: { method: "clamp", place: "stud" }, off: { method: "clamp", place: "wire" } },
  { rule: "wrong-place", on: { method: "front-probe", place: "stud" }, off: { ...FRONT } },
  { rule: "boosted-line", on: { isBoostedNow: true }, off: {} },
  {
    rule: "boosted-line",
    on: { ...CONTACT, method: "in-line", isBoostedNow: true },
    off: { method: "clamp", place: "wire", isBoostedNow: true },
  },
  { rule: "boosted-line-beside", on: { ...FRONT, isConnectorBoostedNow: true }, off: { ...FRONT } },
  {
    rule: "turning-parts",
    on: { hazards: [{ kind: "rotating", isOfState: false }] },
    off: { hazards: [{ kind: "hot", isOfState: true }] },
  },
  {
    rule: "turning-parts",
    on: { method: "clamp", place: "wire", hazards: [{ kind: "rotating", isOfState: true }] },
    off: { method: "clip", hazards: [{ kind: "rotating", isOfState: true }] },
  },
  {
    rule: "crushing-parts",
    on: { hazards: [{ kind: "crush", isOfState: true }] },
    off: { hazards: [{ kind: "crush", isOfState: false }] },
  },
  {
    rule: "crushing-parts",
    on: { isAtRest: false, hazards: [{ kind: "crush", isOfState: false }] },
    off: { isAtRest: false, hazards: [{ kind: "step", isOfState: false }] },
  },
  { rule: "out-of-reach", on: { isOutOfReach: true }, off: {} },
  { rule: "not-permitted-here", on: { ...FRONT, isPermitMissing: true }, off: { ...FRONT } },
  {
    rule: "no-adapter",
    on: { ...CONTACT, method: "in-line", isAdapterMissing: true },
    off: { isAdapterMissing: true },
  },
  {
    rule: "terminal-size-unknown",
    on: { ...FRONT, isTerminalSizeUnknown: true },
    off: { isTerminalSizeUnknown: true },
  },
  {
    rule: "opened-while-running",
    on: { ...FRONT, isMachineBusy: true },
    off: { ...FRONT, conditions: ["key-on"] },
  },
  { rule: "ohms-live", meter: "resistance", on: { conditions: [] }, off: { conditions: ["battery-disconnected"] } },
  { rule: "ohms-live", meter: "resistance", on: { conditions: ["key-on", "running"] }, off: {} },
  { rule: "ohms-on-battery", meter: "resistance", on: { isOnBattery: true }, off: {} },
  {
    rule: "ohms-into-module",
    meter: "resistance",
    on: { ...CONTACT, method: "in-line", side: "device", componentKind: "module" },
    off: { ...CONTACT, method: "in-line", side: "device", componentKind: "distribution" },
  },
  {
    rule: "lamp-needs-battery-power",
    meter: "test-lamp",
    on: { netKinds: new Set(["data-bus"]) },
    off: { netKinds: new Set(["battery-power"]) },
  },
  { rule: "lamp-needs-battery-power", meter: "test-lamp", on: { netKinds: new Set() }, off: {} },
  {
    rule: "lamp-needs-battery-power",
    meter: "test-lamp",
    on: { netKinds: new Set(["battery-power", "signal"]) },
    off: {},
  },
  {
    rule: "lamp-at-module",
    meter: "test-lamp",
    on: { ...CONTACT, method: "in-line", componentKind: "not-known" },
    off: { ...CONTACT, method: "in-line", componentKind: "motor" },
  },
];

/** The rule that refuses the method, or the meter if one is asked for; `allowed` if none does; `hole` if a method was let through. */
function outcome(rules: readonly Rule[], facts: Partial<ContactFacts>, meter?: Meter): string {
  try {
    const verdict = evaluateRules(rules, { ...HARMLESS, ...facts });
    if (verdict.kind === "refused") return verdict.rule.id;
    if (meter === undefined || verdict.meters.includes(meter)) return "allowed";
    return verdict.notFor.find((each) => each.meter === meter)?.rule.id ?? "not for this method";
  } catch (error) {
    if (error instanceof RangeError) return "hole";
    throw error;
  }
}

describe("evaluateRules()", () => {
  test("allows every meter where nothing speaks against it", () => {
    expect(evaluateRules(RULES, HARMLESS)).toEqual({
      kind: "permitted",
      meters: ["dc-voltage", "resistance", "test-lamp"],
      notFor: [],
    });
  });

  test.each(cases)("$rule refuses what it speaks of", ({ rule, on, meter }) => {
    expect(outcome(RULES, on, meter)).toBe(rule);
  });

  test.each(cases)("$rule leaves alone what it does not speak of", ({ rule, off, meter }) => {
    expect(outcome(RULES, off, meter)).not.toBe(rule);
  });

  test.each(cases)("without $rule the answer is another", ({ rule, on, meter }) => {
    const without = RULES.filter((each) => each.id !== rule);
    expect(without).toHaveLength(RULES.length - 1);
    expect(outcome(without, on, meter)).not.toBe(rule);
  });

  test("refuses a contact that no meter is left for", () => {
    const noMeters: Rule = { id: "none", meters: ["clamp"], when: {}, reason: "r", source: "s" };
    expect(outcome([noMeters], { method: "clamp", place: "wire" })).toBe("none");
  });

  test("throws rather than offer a method that has no class", () => {
    expect(() => evaluateRules([], { ...HARMLESS, method: "pierce", place: "wire" })).toThrow(RangeError);
  });
});

describe("the table", () => {
  test("has a case for every row, and no case for a row that is gone", () => {
    expect([...new Set(cases.map((each) => each.rule))].toSorted()).toEqual(RULES.map((rule) => rule.id).toSorted());
  });

  test("names every row once, with one sentence and a source, for methods or for meters", () => {
    expect(new Set(RULES.map((rule) => rule.id)).size).toBe(RULES.length);
    for (const rule of RULES) {
      expect(rule.reason, rule.id).toMatch(/^[A-Z].*\.$/u);
      expect(rule.source.length, rule.id).toBeGreaterThan(5);
      expect((rule.methods === undefined) !== (rule.meters === undefined), rule.id).toBe(true);
    }
  });

  test("lets no method through that must never be offered, wherever it is laid on", () => {
    const places: readonly PlaceKind[] = ["contact", "stud", "splice", "inner", "wire", "fuse"];
    const never = (["back-probe", "pierce", "tip-in-socket"] as const satisfies readonly Method[]).filter(
      (method) => METHODS[method].class === undefined,
    );
    expect(never).toHaveLength(3);
    for (const method of never)
      for (const place of places)
        for (const isSealed of [true, false, undefined])
          expect(outcome(RULES, { method, place, isSealed }), `${method} on ${place}`).not.toMatch(
            /^(?:hole|allowed)$/u,
          );
  });
});
