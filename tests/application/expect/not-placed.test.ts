import { describe, expect, test } from "vitest";
import { ExpectedReadingAnswer, type ExpectQuestion } from "ohmward/application";
import { askChecked, demo } from "../demo-machine.ts";
import { smallMachine } from "../small-machine.ts";

type Asked = Omit<ExpectQuestion, "kind">;

function read(state: string, question: Asked): ExpectedReadingAnswer {
  return ExpectedReadingAnswer.parse(askChecked(demo, { build: "base", state }, { kind: "expected", ...question }));
}
describe("askExpect(): a lead that may not go there is not placed", () => {
  test("there is no figure, but why, and the nearest points where it may go", () => {
    const answer = read("KOEO", { red: "SP11", black: "G2-" });
    expect(answer).toMatchObject({ kind: "refused", value: null, low: null, high: null, canBeMeasured: false });
    expect(answer).toMatchObject({ notPlaced: ["red"], holdsIn: [], because: [{ code: "not-placed" }] });
    expect(answer.text).toMatch(
      /^No reading: the red lead is not permitted at SP11\. Reason: there is no permitted test point/u,
    );
    const [red, black] = answer.leads;
    expect([red?.access, black?.access]).toEqual(["elsewhere", "permitted"]);
    expect(red?.ways.map(({ relation }) => relation)).toContain("conductor");
    expect(black?.ways.map(({ relation }) => relation)).toContain("itself");
  });

  test("the figure for understanding is the same as it ever was, and says what it is", () => {
    const answer = read("KOEO", { red: "SP11", black: "G2-", calculateOnly: true });
    expect(answer).toMatchObject({ kind: "value", notPlaced: ["red"], canBeMeasured: false });
    expect(answer.text).toMatch(/for understanding only/u);
  });

  test("the nearest points are points where the lead is placed when asked for there", () => {
    for (const { relation, at, unplug } of read("KOEO", { red: "SP11" }).leads[0]?.ways ?? []) {
      const again = read("KOEO", { red: at ?? "", ...(unplug !== undefined && { unplugged: [unplug] }) });
      expect([relation, again.notPlaced]).toEqual([relation, []]);
    }
  });

  test("a point inside a control unit sends to another conductor, and says that it reads otherwise", () => {
    const [inner] = read("KOEO", { red: "A1#batt" }).leads;
    expect(inner?.access).toBe("none");
    const beyond = inner?.ways ?? [];
    expect(beyond.map(({ relation }) => relation)).toContain("beyond");
    expect(inner?.text).toMatch(/behind A1\.bar-batt-1.*gives another reading/u);
    for (const { at = "" } of beyond) expect(read("KOEO", { red: at }).notPlaced).toEqual([]);
  });

  test("permitted leads need no flag and read the same with it", () => {
    const plain = read("KOEO", { red: "G2+", black: "G2-" });
    expect(plain).toMatchObject({ kind: "value", notPlaced: [], canBeMeasured: true });
    expect(read("KOEO", { red: "G2+", black: "G2-", calculateOnly: true })).toEqual(plain);
  });

  test("why the meter itself is refused is told as well", () => {
    const answer = read("KOEO", { red: "XD1:C", black: "XD1:D", meter: "resistance" });
    expect(answer.because.map(({ code }) => code)).toContain("live");
    expect(answer.disconnect).not.toEqual([]);
  });

  test("faults give no healthy figure away, and a clamp on a turning part none at all", () => {
    expect(read("KOEO", { red: "SP11", faults: ["open:W78"] }).normal).toBeUndefined();
    expect(read("CRANK", { red: "W29", meter: "dc-current" })).toMatchObject({ kind: "refused", notPlaced: ["clamp"] });
  });

  test("a line that must be left alone sends nowhere", () => {
    const machine = smallMachine([{ id: "bare", label: "Bare", options: [] }]);
    const airbag = askChecked(machine, { state: "ON" }, { kind: "expected", red: "A9.X:1", black: "A9.X:2" });
    expect(ExpectedReadingAnswer.parse(airbag).leads.flatMap(({ ways }) => ways)).toEqual([]);
  });
});
