import { describe, expect, test } from "vitest";
import { fitBuild } from "ohmward/harness-model";
import { isContactPermitted, METHODS, type Method } from "ohmward/measurement-safety";
import {
  ExpectedReadingAnswer,
  type Answer,
  type ExpectQuestion,
  type Machine,
  type OpenSetting,
} from "ohmward/application";
import { askChecked, demo } from "../demo-machine.ts";
import { smallMachine } from "../small-machine.ts";
import { battery, studMachine } from "./stud-machine.ts";

type Asked = Omit<ExpectQuestion, "kind">;
const inState = (state: string): OpenSetting => ({ build: "base", state });

function askOn(machine: Machine, setting: OpenSetting, question: Asked): Answer {
  // Most of these tests are about figures, whatever may be touched; what happens without this flag has tests of its own.
  return askChecked(machine, setting, { kind: "expected", calculateOnly: true, ...question });
}
const asked = (state: string, question: Asked): Answer => askOn(demo, inState(state), question);
const read = (state: string, question: Asked): ExpectedReadingAnswer =>
  ExpectedReadingAnswer.parse(asked(state, question));

describe("askExpect(): the halves of a contact", () => {
  test("a mated pair is read at the harness half, and the answer says so", () => {
    const answer = read("KOEO", { red: "B3.X:1", black: "B3.X:2" });
    expect([answer.red, answer.black]).toEqual(["B3.X.harness:1", "B3.X.harness:2"]);
    expect(answer.assumptions.join("\n")).toMatch(/B3\.X:1 has two sides.*Assumed: B3\.X\.harness:1.*reads the same/u);
    const device = read("KOEO", { red: "B3.X.device:1", black: "B3.X.device:2" });
    expect(device.red).toBe("B3.X.device:1");
    expect(device.value ?? NaN).toBeCloseTo(answer.value ?? NaN, 3);
    expect(device.assumptions.join("\n")).not.toMatch(/both halves/u);
  });

  test("of an unplugged device connector the harness half is taken and the other one named", () => {
    const answer = read("OFF", { red: "A1.X1:33", black: "A1.X1:34", meter: "resistance", unplugged: ["A1.X1"] });
    expect(answer.red).toBe("A1.X1.harness:33");
    expect(answer.assumptions.join("\n")).toMatch(/A1\.X1\.device:33 is separate/u);
    expect(answer.leads[0]?.ways[0]?.how).toMatch(/Disconnect A1\.X1\. Connect BL-A1X1 to A1\.X1\.harness only/u);
  });

  test("between two harnesses the answer asks where the halves stand apart, and only there", () => {
    const apart = asked("KOEO", { red: "XF1:1", faults: ["open:XF1:1"] });
    expect(apart).toMatchObject({ kind: "ambiguous", items: [{ id: "XF1e:1" }, { id: "XF1p:1" }] });
    expect(asked("OFF", { red: "XP1:1", black: "XP1:2", meter: "resistance", unplugged: ["XP1"] }).kind).toBe(
      "ambiguous",
    );
    const mated = read("KOEO", { red: "XF1:1" });
    expect(mated.red).toBe("XF1e:1");
    expect(read("KOEO", { red: "XF1e:1", faults: ["open:XF1:1"] }).kind).toBe("value");
    expect(read("KOEO", { red: "XF1p:1", faults: ["open:XF1:1"] }).kind).toBe("floating");
  });
});

describe("askExpect(): floating, over range and zero are three things", () => {
  test("a lead on nothing floats and is told apart from 0 V", () => {
    const floating = read("KOEO", { red: "XF1e:2", faults: ["open:XF1:1"] });
    expect(floating).toMatchObject({ kind: "floating", value: null, low: null, high: null, unit: "V" });
    expect(floating.text).toMatch(/Floating point: not 0 V\. Nothing holds/u);
    const zero = read("KOEO", { red: "GND-C1" });
    expect(zero.kind).toBe("value");
    expect(zero.text).toMatch(/About 0 V is a true reading here/u);
    expect(read("KOEO", { red: "G2+" }).text).not.toMatch(/About 0 V/u);
  });

  test("an open way is over range on ohms, with a value above it or below it otherwise", () => {
    const open = read("OFF", {
      red: "A1.X1.harness:33",
      black: "A1.X1.harness:34",
      meter: "resistance",
      unplugged: ["A1.X1", "B1.X"],
    });
    expect(open).toMatchObject({ kind: "overload", value: null, unit: "Ω" });
    expect(open.text).toMatch(/opposite of 0 Ω/u);
  });
});

describe("askExpect(): ohms", () => {
  test.each(["KOEO", "RUN", "CRANK"])("are refused on a live circuit, with what to take off, in %s", (state) => {
    const answer = read(state, { red: "XD1:C", black: "XD1:D", meter: "resistance" });
    expect(answer).toMatchObject({ kind: "refused", value: null, unit: "Ω", canBeMeasured: false });
    expect(answer.disconnect.join("\n")).toMatch(/G2 .*open the isolator[^]*A1 .*disconnect A1\.X1/u);
    expect(answer.because.map(({ code }) => code)).toContain("live");
  });

  test("below half an ohm say that they are no evidence and offer the drop under load", () => {
    const way = read("OFF", { red: "M1.30", black: "S10.2", meter: "resistance" });
    expect(way.value ?? NaN).toBeLessThan(0.5);
    const advice = way.because.find(({ code }) => code === "ohms-no-evidence")?.text ?? "";
    expect(advice).toMatch(/Switch the load on and measure the voltage drop from M1\.30 to S10\.2/u);
    expect(
      read("OFF", { red: "XD1:C", black: "XD1:D", meter: "resistance" }).because.map(({ code }) => code),
    ).not.toContain("ohms-no-evidence");
  });

  test("offer no drop under load on a line that is driven far above battery voltage in use", () => {
    const loop = read("OFF", { red: "A1.X1:53", black: "A1.X1:54", meter: "resistance", unplugged: ["A1.X1"] });
    const advice = loop.because.find(({ code }) => code === "ohms-no-evidence")?.text ?? "";
    expect(advice).toMatch(/contact is not permitted then/u);
    expect(advice).not.toMatch(/measure the voltage drop/u);
  });
});

describe("askExpect(): other meters", () => {
  test("a drop needs both points and says what flows", () => {
    const answer = read("CRANK", { red: "A3.X1:5", black: "M1.50", meter: "voltage-drop" });
    expect(answer.because.map(({ code }) => code)).toContain("current");
    expect(asked("CRANK", { red: "M1.50", meter: "voltage-drop" })).toMatchObject({
      kind: "wrong-question",
      problems: [{ code: "no-black" }],
    });
  });

  test("a clamp goes round a wire, or round the one wire of a point", () => {
    const answer = read("CRANK", { red: "W29", meter: "dc-current" });
    expect(answer).toMatchObject({ kind: "value", unit: "A", red: "W29" });
    expect(answer.black).toBeUndefined();
    expect(answer.assumptions.join("\n")).toMatch(/Current from XE1e:1 to M1\.50 is positive/u);
    expect(read("CRANK", { red: "M1.50", meter: "dc-current" })).toMatchObject({ red: "W29", value: answer.value });
    expect(asked("CRANK", { red: "GND-C1", meter: "dc-current" }).kind).toBe("ambiguous");
    expect(asked("CRANK", { red: "W29", black: "G2-", meter: "dc-current" })).toMatchObject({
      problems: [{ code: "clamp-has-no-black" }],
    });
  });

  test("a clamp is permitted where nothing turns or crushes", () => {
    const still = read("KOEO", { red: "W89", meter: "dc-current" });
    expect(still.leads).toMatchObject([
      { lead: "clamp", access: "permitted", ways: [{ class: "P0", method: "clamp" }] },
    ]);
    const cranking = read("CRANK", { red: "W29", meter: "dc-current" });
    expect(cranking.leads[0]?.access).toBe("none");
    expect(cranking.text).toMatch(/for understanding only/u);
  });

  test("a test lamp pulls a weak feed down and is kept off sensor lines", () => {
    const strong = read("KOEO", { red: "A3.S1", meter: "test-lamp" });
    expect(strong.canBeMeasured).toBe(true);
    const weak = read("KOEO", { red: "XF1e:2", meter: "test-lamp" });
    expect(weak.value ?? NaN).toBeLessThan(read("KOEO", { red: "XF1e:2" }).value ?? NaN);
    const sensor = read("KOEO", { red: "B3.X:1", meter: "test-lamp" });
    expect(sensor.canBeMeasured).toBe(false);
    expect(sensor.leads[0]?.refused.map(({ rule }) => rule)).toContain("lamp-needs-battery-power");
  });

  test("duty is the share of the time the point is high, and refused where nothing pulses", () => {
    expect(read("RUN", { red: "Y8.X:2", meter: "duty-cycle" })).toMatchObject({ kind: "value", unit: "%", value: 60 });
    expect(read("KOEO", { red: "Y8.X:2", meter: "duty-cycle" }).kind).toBe("refused");
    expect(read("RUN", { red: "Y8.X:2", meter: "duty-cycle", settings: ["A1.drv-fan=75%"] }).value).toBe(25);
  });
});

describe("askExpect(): where the leads go", () => {
  const harness = fitBuild(demo.document, "base");

  test.each(["G2+", "B3.X:1", "A1.X2.device:1", "SP11", "XF1e:1", "M1.50", "XP1o:1", "S1.X:15", "A3#bus"])(
    "every way offered at %s is permitted by the rules of probing, in every state",
    (point) => {
      for (const state of demo.document.states) {
        for (const meter of ["dc-voltage", "resistance", "test-lamp"] as const) {
          const [lead] = read(state.id, { red: point, black: "G2-", meter }).leads.slice(point === "G2-" ? 1 : 0);
          if (!harness || !lead) throw new Error("no lead");
          for (const { method, at = "" } of lead.ways) {
            const how = Object.keys(METHODS).find((each): each is Method => each === method);
            if (!how) throw new Error(`unknown method ${method}`);
            const wanted = meter === "test-lamp" ? "test-lamp" : meter;
            expect(isContactPermitted(harness, state, { point: at, method: how, meter: wanted }).kind).toBe(
              "permitted",
            );
          }
          expect(lead.ways.some((way) => /back-probe|pierce|socket/u.test(way.method))).toBe(false);
          if (lead.access !== "permitted") expect(lead.text).toMatch(/[Nn]o contact is permitted|only with/u);
        }
      }
    },
  );

  test("a covered point sends to another point of the conductor, an inner one nowhere", () => {
    const splice = read("KOEO", { red: "SP11" });
    expect(splice.leads[0]).toMatchObject({ access: "elsewhere" });
    expect(splice.leads[0]?.ways[0]?.between.length).toBeGreaterThan(0);
    expect(splice.canBeMeasured).toBe(false);
    const inner = read("KOEO", { red: "A3#bus" });
    expect(inner.leads[0]?.access).not.toBe("permitted");
  });

  test("a reading that an opened connector would change is not called permitted", () => {
    const shut = read("KOEO", { red: "B7.X:1", black: "B7.X:2" });
    const open = read("KOEO", { red: "B7.X:1", black: "B7.X:2", unplugged: ["B7.X"] });
    for (const { access, ways } of shut.leads)
      if (access === "permitted") expect(ways.every((way) => way.unplug === undefined)).toBe(true);
    expect(open.leads.map(({ access }) => access)).toEqual(["permitted", "permitted"]);
    expect(open.leads[0]?.ways.some(({ method }) => method === "front-probe")).toBe(true);
  });

  test("no way leads over a connector that is unplugged", () => {
    const { leads } = read("KOEO", { red: "SP11", unplugged: ["A1.X1"] });
    for (const way of leads[0]?.ways ?? []) expect(way.between.join(" ")).not.toMatch(/A1\.X1/u);
  });

  test("a ring is touched itself, not its stud", () => {
    const ring = read("KOEO", { red: "W06@GND-C1", black: "GND-C1", faults: ["loose-terminal:W06@GND-C1=0.4"] });
    expect(ring.value ?? NaN).toBeGreaterThan(0.1);
    expect(ring.leads[0]?.text).toMatch(/on the ring terminal of W06, not on the stud or nut/u);
    expect(asked("KOEO", { red: "W06@GND-E1" })).toMatchObject({ kind: "unknown" });
    expect(asked("KOEO", { red: "W06@nothing" })).toMatchObject({ kind: "unknown", asked: "nothing" });
  });

  test("an airbag line gets no figure and no way, whatever is asked", () => {
    const machine = smallMachine([{ id: "bare", label: "Bare", options: [] }]);
    for (const meter of ["dc-voltage", "resistance", "voltage-drop"] as const) {
      const answer = ExpectedReadingAnswer.parse(
        askOn(machine, { state: "ON" }, { red: "A9.X:1", black: "A9.X:2", meter, faults: ["open:W8"] }),
      );
      expect(answer).toMatchObject({ kind: "refused", value: null, canBeMeasured: false });
      expect(answer.normal).toBeUndefined();
      expect(answer.because).toMatchObject([{ code: "forbidden" }]);
      expect(answer.cautions.join("\n")).toMatch(/WARNING: do not touch SQUIB/u);
      expect(answer.leads.map(({ access, ways }) => [access, ways.length])).toEqual([
        ["none", 0],
        ["none", 0],
      ]);
    }
  });

  test("the cautions of the ways and of the document come with the answer", () => {
    const { cautions } = read("KOEO", { red: "B3.X:1", black: "B3.X:2" });
    expect(cautions[0]).toMatch(/maker's procedure/u);
    expect(cautions.join("\n")).toMatch(/proved the meter on a live point/u);
    expect(cautions).toEqual([...new Set(cautions)]);
  });
});

describe("askExpect(): conditions", () => {
  test("names are resolved as everywhere, and repeated in their canonical form", () => {
    const answer = read("CRANK", { red: "xe1e:1", faults: ["resistance: xe1:1 = 0.25"], adapters: ["tl-a3x1"] });
    expect(answer).toMatchObject({
      red: "XE1e:1",
      adapters: ["TL-A3X1"],
      faults: [{ text: "high-resistance:XE1:1=0.25" }],
    });
    expect(read("KOEO", { red: "G2+", settings: ["s1.run=open"] }).settings).toEqual(["S1.run=open"]);
    expect(read("KOEO", { red: "G2+", unplugged: ["rt1.x"] }).unplugged).toEqual(["RT1.X"]);
  });

  test("a switch set by hand stands so", () => {
    const on = read("KOEO", { red: "S1.X:15" });
    const off = read("KOEO", { red: "S1.X:15", settings: ["S1.run=open"] });
    expect(on.value ?? NaN).toBeGreaterThan(12);
    expect(off.value ?? 0).toBeLessThan(1);
  });

  test("several faults at once, and a fault that does not show", () => {
    const both = read("KOEO", { red: "A1.X1:36", faults: ["open:W78", "open:W89"] });
    expect(both.faults).toHaveLength(2);
    const aside = read("KOEO", { red: "A1.X1:36", faults: ["open:W81"] });
    expect(aside.normal?.isToldApart).toBe(false);
  });

  test("an empty list is the same as none", () => {
    const bare = asked("KOEO", { red: "G2+" });
    expect(asked("KOEO", { red: "G2+", faults: [], unplugged: [], adapters: [], settings: [] })).toEqual(bare);
  });

  test("the state is said where none was given, and the black lead too", () => {
    const answer = ExpectedReadingAnswer.parse(askOn(demo, { build: "base" }, { red: "G2+" }));
    expect(answer.state).toBe("OFF");
    expect(answer.assumptions.join("\n")).toMatch(/No state was given\. Assumed: OFF[^]*black \(COM\) lead is at G2-/u);
  });

  test.each([
    ["a fault of no kind", { faults: ["broken:W78"] }, "unknown-fault", /kinds are open, high-resistance/u],
    ["a fault without its value", { faults: ["high-resistance:XE1:1"] }, "unknown-fault", /Ω after "="/u],
    ["a fault of a whole component", { faults: ["open:B3"] }, "wrong-target", /Its parts: B3\.cell/u],
    ["a fault of the wrong sort", { faults: ["blown:W78"] }, "wrong-target", /W78/u],
    ["a thing that cannot be unplugged", { unplugged: ["B3"] }, "wrong-target", /Connectors there: B3\.X/u],
    ["an unknown adapter", { adapters: ["TL-9"] }, "unknown-adapter", /it lists BL-A1X1/u],
    ["a setting of nothing", { settings: ["S1.run"] }, "wrong-setting", /is no setting/u],
    ["a setting of a quantity that is none", { settings: ["mood=3"] }, "wrong-setting", /Known: rail-pressure/u],
    ["a setting of a component", { settings: ["S1=open"] }, "wrong-setting", /Only a part/u],
    ["both leads on one point", { black: "G2+" }, "same-point", /Both leads/u],
  ])("%s is a wrong question", (_label, more: Partial<Asked>, code, text) => {
    const answer = asked("KOEO", { red: "G2+", ...more });
    if (answer.kind !== "wrong-question") throw new Error(JSON.stringify(answer).slice(0, 300));
    expect(answer.problems.map((problem) => problem.code)).toEqual([code]);
    expect(answer.problems[0]?.text).toMatch(text);
  });

  test.each([
    ["an unknown point", { red: "SP1l" }, "unknown"],
    ["an unknown black point", { red: "G2+", black: "SP1l" }, "unknown"],
    ["a component", { red: "B3" }, "ambiguous"],
    ["a wire", { red: "W89" }, "ambiguous"],
    ["an unknown fault target", { red: "G2+", faults: ["open:W999"] }, "unknown"],
    ["a fault target of another build", { red: "G2+", faults: ["open:Y9.coil"] }, "not-fitted"],
    ["an unknown connector", { red: "G2+", unplugged: ["X99"] }, "unknown"],
    ["an unknown part to set", { red: "G2+", settings: ["S99.run=open"] }, "unknown"],
  ])("%s is asked back", (_label, question: Asked, kind) => {
    expect(asked("KOEO", question).kind).toBe(kind);
  });

  test("an unknown state lists the states", () => {
    const answer = asked("ASLEEP", { red: "G2+" });
    expect(answer).toMatchObject({ kind: "choose-state" });
    expect(answer.kind === "choose-state" && answer.choices.map(({ id }) => id)).toContain("KOEO");
  });
});

describe("askExpect() where there is no figure", () => {
  test("a relay that interrupts its own coil never settles", () => {
    const buzzer = studMachine(
      [
        battery,
        { id: "k", kind: "coil", between: ["A", "N"], resistanceOhm: 80, pullInVolt: 7, dropOutVolt: 2 },
        { id: "rest", kind: "contact", of: "k", form: "break", between: ["P", "A"], resistanceOhm: 0.01 },
      ],
      { terminalStuds: ["A"] },
    );
    const answer = ExpectedReadingAnswer.parse(askOn(buzzer, {}, { red: "A" }));
    expect(answer).toMatchObject({ kind: "no-steady-state", value: null, canBeMeasured: false });
    expect(answer.because).toEqual([{ code: "no-steady-state", text: expect.stringContaining("X.k") as string }]);
  });

  test("ideal sources that contradict each other are named", () => {
    const ideal = { kind: "source", role: "battery", between: ["P", "N"], resistanceOhm: 0 };
    const machine = studMachine([
      { ...ideal, id: "a", voltageVolt: 12 },
      { ...ideal, id: "b", voltageVolt: 11 },
    ]);
    const answer = ExpectedReadingAnswer.parse(askOn(machine, {}, { red: "P" }));
    expect(answer).toMatchObject({ kind: "contradictory", value: null });
    expect(answer.because[0]?.text).toMatch(/X\.a, X\.b/u);
  });

  test("a document without states is read at rest, and cannot say where a lead may go", () => {
    const machine = studMachine([battery], { states: [] });
    const answer = ExpectedReadingAnswer.parse(askOn(machine, {}, { red: "P" }));
    expect(answer.value ?? NaN).toBeCloseTo(12, 3);
    expect(answer.leads.map(({ access }) => access)).toEqual(["unknown", "unknown"]);
    expect(answer.canBeMeasured).toBe(false);
    expect(answer.assumptions.join("\n")).toMatch(/no states/u);
  });
});
