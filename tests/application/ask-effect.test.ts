import { describe, expect, test } from "vitest";
import { askDemo } from "./demo-machine.ts";

const stops = (item: string, build = "base"): readonly string[] =>
  askDemo("effect", { kind: "effect", item }, { build }).stopped.map((each) => each.id);

// What hangs on what: read off the wiring tables of the demo machine by hand.
describe("askWithout() on the demo machine", () => {
  test("the jumper plug takes the starter relay and with it the starter", () => {
    const answer = askDemo("effect", { kind: "effect", item: "XT1" });
    expect(answer.stopped.map((each) => [each.id, each.lost, each.because?.id])).toEqual([
      ["A3.K1-coil", ["supply"], undefined],
      ["M1.hold", ["supply"], "A3.K1-coil"],
      ["M1.motor", ["supply"], "M1.hold"],
    ]);
  });

  test("with the tiller the same connector also takes its float valve", () => {
    expect(stops("XT1", "tiller")).toEqual(expect.arrayContaining(["A3.K1-coil", "M1.motor", "Y9.coil"]));
  });

  test("the trunk of the sensor return takes all sensors on it and nothing else", () => {
    expect([...stops("W78")].sort()).toEqual(["B3.cell", "B4.cell", "B4.ntc", "B5.ntc", "B6.cell"]);
    expect(stops("W81")).toEqual(["B5.ntc"]);
  });

  test("the fuse of the engine control unit takes the unit and what it drives, feeds and reads", () => {
    const answer = askDemo("effect", { kind: "effect", item: "A3.F1" });
    expect(answer.stopped[0]).toMatchObject({ type: "component", id: "A1", lost: ["supply"] });
    const ids = answer.stopped.map((each) => each.id);
    expect(ids).toEqual(
      expect.arrayContaining(["A3.K1-coil", "M2.motor", "M1.motor", "B1.winding", "Y1.coil", "K10.coil"]),
    );
    expect(ids).not.toContain("A2");
    expect(answer.stopped.find((each) => each.id === "M2.motor")?.because).toEqual({
      type: "element",
      id: "A3.K4-coil",
    });
  });

  test("one of two parallel supply wires stops nothing and says what is still fed", () => {
    const answer = askDemo("effect", { kind: "effect", item: "W02" });
    expect(answer.stopped).toEqual([]);
    expect(answer.stillFed.length).toBeGreaterThan(0);
  });

  test("says what it takes for granted", () => {
    const { assumptions, origin } = askDemo("effect", { kind: "effect", item: "W78" });
    expect(origin).toBe("computed");
    expect(assumptions.join(" ")).toMatch(/relay contact opens when its coil stops.*largest load/u);
  });
});
