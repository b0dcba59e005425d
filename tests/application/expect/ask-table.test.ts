import { describe, expect, test } from "vitest";
import { ask, ExpectedReadingAnswer, TableAnswer, type OpenSetting, type TableQuestion } from "ohmward/application";
import { generateHarness } from "../../generate/generate-harness.ts";
import { askChecked, demo, open } from "../demo-machine.ts";
import { smallMachine } from "../small-machine.ts";
import { battery, studMachine } from "./stud-machine.ts";

const at = (state: string): OpenSetting => ({ build: "base", state });
const table = (state: string, question: Omit<TableQuestion, "kind">): TableAnswer =>
  TableAnswer.parse(askChecked(demo, at(state), { kind: "table", ...question }));

describe("askTable()", () => {
  test("gives the stair of a circuit from the supply down to ground", () => {
    const { legs, black } = table("HEAT", { item: "R1.element-1" });
    expect(black).toBe("G2-");
    expect(legs.map(({ role }) => role)).toEqual(["supply", "ground"]);
    const points = legs.flatMap(({ rows }) => rows.map(({ point }) => point));
    expect(points).toEqual(["G2+", "S10.1", "S10.2", "M1.30", "FB1.1", "K10.30", "K10.87", "R1.1", "GND-E1", "G2-"]);
    const volts = legs.flatMap(({ rows }) => rows.map(({ reading }) => reading.value ?? NaN));
    expect(volts).toEqual([...volts].sort((a, b) => b - a));
    const fuse = legs[0]?.rows.find(({ point }) => point === "K10.30");
    expect(fuse?.through.map(({ id }) => id)).toEqual(["FB1.FL2"]);
    expect(fuse?.dropVolt).toBeCloseTo((volts[4] ?? 0) - (volts[5] ?? 0), 12);
    expect(legs[0]?.rows[0]?.dropVolt).toBeUndefined();
  });

  // Figures of demo-harness/expected.json, X13, worked out apart from this program.
  test("with a fault gives both readings and marks what a meter tells apart", () => {
    const { legs, faults } = table("HEAT", { item: "R1.element-1", faults: ["blown:FB1.FL2"] });
    expect(faults).toEqual([{ text: "blown:FB1.FL2", label: "FB1.FL2 blown" }]);
    const row = legs[0]?.rows.find(({ point }) => point === "K10.30");
    expect(row?.normal?.value ?? NaN).toBeCloseTo(11.86, 2);
    expect(row?.reading.value ?? NaN).toBeCloseTo(0, 2);
    expect(row?.isToldApart).toBe(true);
  });

  test("agrees with single readings at every point", () => {
    const { legs } = table("KOEO", { item: "B3", faults: ["open:W78"] });
    for (const { point, reading, normal } of legs.flatMap(({ rows }) => rows)) {
      const single = ExpectedReadingAnswer.parse(
        ask(demo, at("KOEO"), { kind: "expected", calculateOnly: true, red: point, faults: ["open:W78"] }),
      );
      expect([single.kind, single.value, single.low, single.normal?.value]).toEqual([
        reading.kind,
        reading.value,
        reading.low,
        normal?.value,
      ]);
    }
  });

  test("shows both halves of a contact where they differ", () => {
    const whole = table("KOEO", { item: "Y8.coil" });
    const parted = table("KOEO", { item: "Y8.coil", faults: ["open:XF1:1"] });
    const points = ({ legs }: TableAnswer): readonly string[] =>
      legs.flatMap(({ rows }) => rows.map(({ point }) => point));
    expect(points(whole).filter((point) => /^XF1[ep]:1$/u.test(point))).toHaveLength(1);
    expect(points(parted).filter((point) => /^XF1[ep]:1$/u.test(point))).toEqual(["XF1e:1", "XF1p:1"]);
    const far = parted.legs.flatMap(({ rows }) => rows).find(({ point }) => point === "XF1p:1");
    expect(far).toMatchObject({ reading: { kind: "floating", value: null }, isToldApart: true });
    expect(far?.dropVolt).toBeUndefined();
  });

  test("says at which points a voltmeter may be", () => {
    const rows = table("KOEO", { item: "B3" }).legs.flatMap((leg) => leg.rows);
    expect(rows.find(({ point }) => point === "B3.X.harness:3")?.reach).toMatchObject({
      class: "P2",
      method: "in-line",
    });
    expect(rows.find(({ point }) => point === "SP11")?.reach).toBeUndefined();
    const injector = table("RUN", { item: "Y1.coil" }).legs.flatMap((leg) => leg.rows);
    expect(injector.length).toBeGreaterThan(0);
    expect(injector.every(({ reach }) => reach === undefined)).toBe(true);
  });

  test.each(["OFF", "KOEO", "RUN"])("judges each point as the answer for a single reading does, in %s", (state) => {
    const { legs, unplugged } = table(state, { item: "B3" });
    expect(unplugged).toEqual([]);
    for (const { item, access, text, reach, instead } of legs.flatMap(({ rows }) => rows)) {
      const single = ExpectedReadingAnswer.parse(
        ask(demo, at(state), { kind: "expected", red: item.id, black: "G2-" }),
      );
      const [lead] = single.leads;
      if (!lead || lead.at === single.black) continue;
      expect([item.id, access, text]).toEqual([item.id, lead.access, lead.text]);
      expect(reach === undefined).toBe(access !== "permitted");
      expect(instead.map((each) => each.at)).toEqual(access === "permitted" ? [] : lead.ways.map((way) => way.at));
    }
  });

  test("a point of an unplugged connector is touched at the half that was asked for, as it is open", () => {
    const rows = table("KOEO", { item: "B3", unplugged: ["B3.X"] }).legs.flatMap((leg) => leg.rows);
    const open = rows.filter(({ point }) => point.startsWith("B3.X.harness:"));
    expect(open.length).toBeGreaterThan(0);
    for (const { access, reach } of open)
      expect([access, reach?.class]).toEqual(["permitted", expect.stringMatching(/^P[23]$/u)]);
  });

  test("the black lead stays where it is put", () => {
    const { legs, black } = table("KOEO", { item: "B3", black: "B3.X:2" });
    expect(black).toBe("B3.X.harness:2");
    const ownPoint = legs.flatMap(({ rows }) => rows).find(({ point }) => point === black);
    expect(ownPoint?.reading.value).toBe(0);
  });

  test("of a thing in many circuits lists some and tells how many ways are left out", () => {
    const many = open(JSON.stringify(generateHarness({ seed: 21, wires: 800 })));
    const answer = TableAnswer.parse(
      askChecked(many, { build: "base", state: "KEY-ON" }, { kind: "table", item: "G1+" }),
    );
    expect(answer.legs.length).toBeLessThanOrEqual(60);
    expect(answer.legsLeftOut).toBeGreaterThan(0);
    expect(table("KOEO", { item: "B3" }).legsLeftOut).toBe(0);
  });

  test("of a thing without a circuit gives its net", () => {
    const { legs } = table("KOEO", { item: "A1.X1:43" });
    expect(legs.map(({ role }) => role)).toEqual(["nothing"]);
  });

  test("gives no figure on an airbag line", () => {
    const machine = smallMachine([{ id: "bare", label: "Bare", options: [] }]);
    const answer = TableAnswer.parse(askChecked(machine, { state: "ON" }, { kind: "table", item: "R9" }));
    const rows = answer.legs.flatMap((leg) => leg.rows);
    expect(rows.length).toBeGreaterThan(0);
    expect(rows.map(({ reading, reach }) => [reading.kind, reading.value, reach])).toEqual(
      rows.map(() => ["refused", null, undefined]),
    );
    expect(answer.cautions.join("\n")).toMatch(/WARNING: do not touch SQUIB/u);
  });

  test("says why there are no figures", () => {
    const ideal = { kind: "source", role: "battery", between: ["P", "N"], resistanceOhm: 0, voltageVolt: 11 };
    const machine = studMachine([{ ...battery, resistanceOhm: 0 }, { ...ideal, id: "b" }, load], {
      terminalStuds: ["A"],
    });
    const answer = TableAnswer.parse(askChecked(machine, {}, { kind: "table", item: "X.lamp" }));
    expect(answer.legs.flatMap((leg) => leg.rows).map(({ reading }) => reading.kind)).toContain("contradictory");
    expect(answer.because).toMatchObject([{ code: "contradictory" }]);
  });

  const load = { id: "lamp", kind: "load", between: ["P", "N"], resistanceOhm: 10 };

  test.each([
    ["an unknown thing", { item: "nonsense" }, "unknown"],
    ["an unknown fault", { item: "B3", faults: ["rust:W1"] }, "wrong-question"],
    ["a fault that cannot be applied", { item: "B3", faults: ["blown:W78"] }, "wrong-question"],
    ["an unknown black point", { item: "B3", black: "nonsense" }, "unknown"],
  ])("%s is no table", (_label, question: Omit<TableQuestion, "kind">, kind) => {
    expect(askChecked(demo, at("KOEO"), { kind: "table", ...question }).kind).toBe(kind);
  });
});
