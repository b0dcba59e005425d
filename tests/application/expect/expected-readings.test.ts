import { describe, expect, test } from "vitest";
import { ask, ExpectedReadingAnswer, type ExpectQuestion } from "ohmward/application";
import { demoText } from "../../demo-harness/open-demo.ts";
import { askChecked, demo } from "../demo-machine.ts";

// The figures of demo-harness/expected.json were worked out apart from this program, with other tools.
type Wanted =
  number | null | string | { readonly above?: number; readonly below?: number; readonly oneOf?: readonly number[] };
type FaultFacts =
  | { readonly kind: "high-resistance"; readonly of: string; readonly ohm: number }
  | { readonly kind: "short"; readonly of: string; readonly to: string; readonly ohm?: number }
  | { readonly kind: "bridge"; readonly between: readonly string[]; readonly ohm: number }
  | { readonly kind: "cross-wired"; readonly cavities: readonly string[] }
  | { readonly kind: "open" | "unplugged" | "blown" | "stuck-open" | "intermittent-open"; readonly of: string };
interface Expected {
  readonly readings: readonly { state: string; red: string; black: string; volt: number }[];
  readonly coolant: readonly { celsius: number; volt: number }[];
  readonly resistances: readonly { red: string; black: string; unplugged: readonly string[]; ohm: number }[];
  readonly faults: readonly {
    readonly id: string;
    readonly builds: readonly string[];
    readonly state: string;
    /** `reasoned` figures are round ones. */
    readonly basis: "computed" | "reasoned";
    readonly fault: FaultFacts;
    readonly readings: readonly {
      readonly red: string;
      readonly black: string;
      readonly unit: "V" | "ohm";
      readonly unplugged?: readonly string[];
      readonly good: Wanted;
      readonly faulty: Wanted;
    }[];
  }[];
}
const expected = JSON.parse(demoText("expected.json")) as Expected;

function reading(
  question: Omit<ExpectQuestion, "kind">,
  setting: { build: string; state: string },
): ExpectedReadingAnswer {
  return ExpectedReadingAnswer.parse(askChecked(demo, setting, { kind: "expected", calculateOnly: true, ...question }));
}

function faultText(fault: FaultFacts): string {
  switch (fault.kind) {
    case "high-resistance":
      return `high-resistance:${fault.of}=${fault.ohm}`;
    case "short":
      return `short:${fault.of}=${fault.to},${fault.ohm ?? 0.05}`;
    case "bridge":
      return `bridge:${fault.between.join("=")},${fault.ohm}`;
    case "cross-wired":
      return `cross-wired:${fault.cavities.join("=")}`;
    case "intermittent-open":
      return `open:${fault.of}`;
    case "open":
    case "unplugged":
    case "blown":
    case "stuck-open":
      return `${fault.kind}:${fault.of}`;
  }
}

/** Whether a reading is what the list says, which writes volts to 10 mV and ohms to 0.1 ohm. */
function fits({ kind, value, unit }: ExpectedReadingAnswer, wanted: Wanted, isRound = false): boolean {
  // A reading of a branch that the healthy machine of this build has not been given a figure for.
  if (wanted === null) return kind === "value";
  // An open way may go on through a unit that sleeps, which gives no figure.
  if (wanted === "open") return kind === "overload" || kind === "refused" || (value !== null && value > 20e3);
  // A line between its two proper levels.
  if (wanted === "loaded") return value !== null && value > 0.5 && value < 4.5;
  // A lead on nothing shows about 0 V; here it is told apart from a true 0 V.
  if (wanted === 0) return kind === "floating" || (value !== null && Math.abs(value) < (isRound ? 0.05 : 0.005));
  if (typeof wanted === "object") {
    if (wanted.above !== undefined) return kind === "overload" || (value !== null && value > wanted.above);
    if (wanted.below !== undefined) return value !== null && value < wanted.below;
    return value !== null && (wanted.oneOf ?? []).some((each) => Math.abs(each - value) < 0.1);
  }
  if (value === null || typeof wanted === "string") return false;
  const step = unit === "Ω" ? 0.1 : 0.01;
  return Math.abs(value - wanted) <= Math.max(step, (isRound ? 0.05 : 0.01) * Math.abs(wanted));
}

describe("askExpect() on the readings of the demo machine", () => {
  test.each(expected.readings)("$state $red to $black is $volt V", ({ state, red, black, volt }) => {
    const answer = reading({ red, black }, { build: "base", state });
    expect(answer).toMatchObject({ kind: "value", unit: "V", meter: "dc-voltage", origin: "computed" });
    expect(Math.abs((answer.value ?? NaN) - volt)).toBeLessThanOrEqual(Math.max(0.001, 0.01 * Math.abs(volt)));
    expect(answer.low ?? NaN).toBeLessThan(volt);
    expect(answer.high ?? NaN).toBeGreaterThan(volt);
    expect(answer.holdsIn).toContain(state);
    // The seat input has no adapter of its own; the seat switch on the same line is read in its place.
    const wanted =
      red === "A2.X1:7"
        ? ["elsewhere", "elsewhere"]
        : isOpenedFirst(red, state)
          ? undefined
          : ["permitted", "permitted"];
    if (wanted) expect(answer.leads.map(({ access }) => access)).toEqual(wanted);
  });

  // The list reads these two with the connector opened, which is another question.
  const isOpenedFirst = (red: string, state: string): boolean => state === "KOEO" && ["B7.X:1", "XF1e:1"].includes(red);

  test.each(expected.coolant)("coolant of $celsius C gives $volt V", ({ celsius, volt }) => {
    const question = { red: "B5.X:1", black: "B5.X:2", settings: [`coolant-temperature=${celsius}`] };
    expect(reading(question, { build: "base", state: "KOEO" }).value).toBeCloseTo(volt, 2);
  });

  test.each(expected.resistances)("$red to $black is $ohm ohm", ({ red, black, unplugged, ohm }) => {
    const answer = reading({ red, black, meter: "resistance", unplugged }, { build: "base", state: "OFF" });
    expect(answer).toMatchObject({ kind: "value", unit: "Ω", canBeMeasured: true });
    expect(Math.abs((answer.value ?? NaN) - ohm)).toBeLessThanOrEqual(Math.max(0.01, 0.001 * ohm));
  });
});

/** A pressure sensor with 50 mV of supply sleeps; the list takes it for a divider of them as well, and has 10 mV more. */
const asleep = (id: string, red: string): { readonly faulty?: number } =>
  id === "X05" && red === "A1.X1:37" ? { faulty: 0.02 } : {};

describe("askExpect() on the faults of the demo machine", () => {
  const cases = expected.faults.flatMap(({ id, builds, state, basis, fault, readings }) =>
    readings.map((each) => ({
      ...each,
      ...asleep(id, each.red),
      id,
      build: builds[0] ?? "",
      state,
      basis,
      fault: faultText(fault),
    })),
  );

  test("has the faults", () => {
    expect(new Set(cases.map(({ id }) => id)).size).toBeGreaterThanOrEqual(13);
  });

  test.each(cases)(
    "$id $fault: $red to $black",
    ({ build, state, red, black, unit, unplugged = [], good, faulty, fault, basis }) => {
      const meter = unit === "V" ? "dc-voltage" : "resistance";
      const question = { red, black, meter, unplugged } as const;
      const whole = reading(question, { build, state });
      const broken = reading({ ...question, faults: [fault] }, { build, state });
      expect([whole.kind, whole.value, fits(whole, good)]).toEqual([whole.kind, whole.value, true]);
      expect([broken.kind, broken.value, fits(broken, faulty, basis === "reasoned")]).toEqual([
        broken.kind,
        broken.value,
        true,
      ]);
      expect(broken.normal).toMatchObject({ kind: whole.kind, value: whole.value });
      expect(whole.normal).toBeUndefined();
      // A half that is left off stands for its connector.
      expect(broken.faults.map(({ text }) => text)).toEqual([fault.replace("XT1j", "XT1")]);
      const isFarApart = typeof good === "number" && typeof faulty === "number" && Math.abs(good - faulty) > 0.3;
      if (isFarApart) expect(broken.normal?.isToldApart).toBe(true);
      if (good === faulty) expect(broken.normal?.isToldApart).toBe(false);
    },
  );

  test("the check of a figure tells a wrong one from a right one", () => {
    const answer = ask(demo, { build: "base", state: "KOEO" }, { kind: "expected", red: "G2+" });
    const told = ExpectedReadingAnswer.parse(answer);
    expect([fits(told, 12.64), fits(told, 12.9), fits(told, 0), fits(told, "open"), fits(told, { below: 1 })]).toEqual([
      true,
      false,
      false,
      false,
      false,
    ]);
  });
});
