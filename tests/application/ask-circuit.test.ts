import { describe, expect, test } from "vitest";
import { askDemo } from "./demo-machine.ts";

describe("askTrace() on the demo machine", () => {
  test("gives the rail sensor's supply, signal and return, each to its pin of the control unit", () => {
    const answer = askDemo("circuit", { kind: "circuit", point: "B3" });
    expect(answer.circuits).toHaveLength(1);
    const [circuit] = answer.circuits;
    // Source: demo-harness/expected.json, traces rail-supply, rail-signal and rail-return.
    expect(
      circuit?.sides.map((side) => [side.role, side.ways.map((way) => way.map((facts) => facts.id).join(" "))]),
    ).toEqual([
      ["module", ["B3.X:1 W72 SP11 W71 A1.X1:1"]],
      ["module", ["B3.X:3 W89 A1.X1:36"]],
      ["module", ["B3.X:2 W79 SP13 W78 A1.X1:17"]],
    ]);
    expect([...answer.net.labels].sort()).toEqual(["5V-A", "RAIL-P", "SGND-A"]);
  });

  test("gives a trouble code the circuit of the pin it watches", () => {
    const code = askDemo("circuit", { kind: "circuit", point: "FE111" });
    const pin = askDemo("circuit", { kind: "circuit", point: "A1.X1:36" });
    expect(code.of).toMatchObject({ type: "code", id: "FE111" });
    expect(code.circuits).toEqual(pin.circuits);
  });

  test("names fuses, switches and the coil that moves each relay contact", () => {
    const answer = askDemo("circuit", { kind: "circuit", point: "M2" });
    expect(answer.fuses).toContain("A3.F10");
    expect(answer.switches).toContainEqual({ id: "A3.K4", coil: "A3.K4-coil" });
    expect(answer.circuits[0]?.sides.map((side) => side.role)).toEqual(["supply", "ground"]);
    expect(answer.assumptions.length).toBeGreaterThan(0);
    expect(answer.origin).toBe("computed");
  });

  test("says of a pin without a wire that it is part of nothing", () => {
    const answer = askDemo("circuit", { kind: "circuit", point: "A1.X1:43" });
    expect(answer.circuits).toEqual([]);
    expect(answer.net.items.some((facts) => facts.type === "wire")).toBe(false);
    const cold = askDemo("circuit", { kind: "circuit", point: "A1.X1:43" }, { build: "cold" });
    expect(cold.circuits.map((circuit) => circuit.serves.id)).toContain("K11.coil");
  });
});
