import { describe, expect, test } from "vitest";
import {
  functionGrade,
  functionShare,
  solveCircuit,
  type Fault,
  type FunctionGrade,
  type GRADE_LIMITS,
  type OperatingPoint,
} from "ohmward/simulation";
import { fitDemo, openDemo } from "../../demo-harness/open-demo.ts";
import { readCases } from "../../judge/cases.ts";
import { faultsOf } from "../support/case-faults.ts";

const document = openDemo();

type Sort = keyof typeof GRADE_LIMITS;

/** The consumers that the cases tell of, with what they are. */
const CONSUMERS: Readonly<Record<string, readonly (readonly [string, Sort])[]>> = {
  M1: [["M1.motor", "motor"]],
  M2: [["M2.motor", "motor"]],
  R1: [["R1.element-1", "heater"]],
  "R1.element-1": [["R1.element-1", "heater"]],
  "R1.element-2": [["R1.element-2", "heater"]],
  Y8: [["Y8.coil", "coil"]],
  G1: [["G1.output", "alternator"]],
  A1: [["A1.supply", "unit"]],
  A2: [["A2.supply", "unit"]],
};

const harnesses = new Map(document.builds.map(({ id }) => [String(id), fitDemo(document, id)]));
const states = document.states.filter(({ conditions }) => conditions.includes("key-on")).map(({ id }) => String(id));

function settled(build: string, state: string, faults: readonly Fault[]): OperatingPoint {
  const harness = harnesses.get(build);
  const point = harness && solveCircuit(harness, { state, faults });
  if (point?.kind !== "settled") throw new Error(`${build} ${state}: ${point?.kind ?? "no build"}`);
  return point;
}

function gradesOf(
  build: string,
  faults: readonly Fault[],
  [element, sort]: readonly [string, Sort],
): ReadonlySet<FunctionGrade> {
  const grades = states.flatMap((state) => {
    const shares = functionShare(settled(build, state, []), settled(build, state, faults), element);
    return (shares && functionGrade(shares, sort)) ?? [];
  });
  return new Set(grades);
}

// Source: the workshop cases, which say what does not work and what does (common practice, no source).
describe("functionShare() and functionGrade()", () => {
  // J43: the fan runs at full speed because its control unit has lost the fan speed, which a circuit does not know.
  // J67: the pump turns; no electrical fault.
  const cases = readCases().filter(({ id }) => id !== "J43" && id !== "J67");
  const rows = cases.flatMap(({ id, build, faults, bad, good }) =>
    [...bad.map((name) => ({ name, isBad: true })), ...good.map((name) => ({ name, isBad: false }))].flatMap((row) =>
      (CONSUMERS[row.name] ?? []).map((consumer) => ({ id, build, faults, consumer, ...row })),
    ),
  );

  test.each(rows)("$id: $name, bad $isBad", ({ build, faults, consumer, isBad }) => {
    const grades = gradesOf(build, faults.flatMap(faultsOf), consumer);
    expect([...grades].some((grade) => grade !== "works")).toBe(isBad);
  });

  const sound = (state: string): OperatingPoint => settled("base", state, []);
  const pump = (faults: readonly Fault[], state = "PRIME"): ReturnType<typeof functionShare> =>
    functionShare(sound(state), settled("base", state, faults), "M2.motor");

  test.each([
    ["sound", [], 1, "works"],
    ["open itself, with full volts across it", [{ kind: "open", of: "M2.motor" }], 0, "nothing"],
    ["2.2 ohm in its plug: half the current", [{ kind: "high-resistance", of: "M2.X:2", ohm: 2.2 }], 0.51, "weak"],
    ["20 ohm in its plug", [{ kind: "high-resistance", of: "M2.X:2", ohm: 20 }], 0.1, "nothing"],
  ] as const)("a pump %s", (_name, faults, share, grade) => {
    const shares = pump(faults);
    expect(shares?.share).toBeCloseTo(share, 1);
    expect(shares && functionGrade(shares, "motor")).toBe(grade);
  });

  test("a pump that a stuck relay leaves on is always on, and one that is off as it should tells nothing", () => {
    const on = pump([{ kind: "stuck-closed", of: "A3.K4" }], "KOEO");
    expect(on && functionGrade(on, "motor")).toBe("always-on");
    expect(on?.share).toBeUndefined();
    const off = pump([], "KOEO");
    expect(off && functionGrade(off, "motor")).toBeUndefined();
  });

  test("a regulator goes by its volts, a dead one by none", () => {
    const grade = (fault: Fault): FunctionGrade | undefined => {
      const shares = functionShare(sound("KOEO"), settled("base", "KOEO", [fault]), "A1.reg-5v-a");
      return shares && functionGrade(shares, "regulator");
    };
    expect(grade({ kind: "short", of: "W74", to: "GND-E1", ohm: 0.5 })).toBe("nothing");
    expect(grade({ kind: "drift", of: "A1.reg-5v-a", factor: 0.9, offset: 0 })).toBe("weak");
    expect(grade({ kind: "stuck-off", of: "A1.reg-5v-a" })).toBe("nothing");
    expect(grade({ kind: "open", of: "B5.ntc" })).toBe("works");
  });

  test("an element that is not there has no share", () => {
    expect(functionShare(sound("KOEO"), sound("KOEO"), "M9.motor")).toBeUndefined();
  });
});
