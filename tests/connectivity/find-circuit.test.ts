import { describe, expect, it } from "vitest";
import { findCircuit, findNet, type FoundCircuits } from "ohmward/connectivity";
import { demo, ids, item } from "./ask-demo.ts";

function circuit(text: string, build = "base"): FoundCircuits {
  const harness = demo(build);
  const answer = findCircuit(harness, item(harness, text));
  if (answer.kind !== "circuit") throw new Error(`${text} belongs to no circuit`);
  return answer;
}

describe("findCircuit", () => {
  it("gives a sensor its supply, signal and shared return", () => {
    const [rail] = circuit("A1.X1:36").circuits;
    expect(rail?.serves.id).toBe("B3.cell");
    const ways = rail?.sides.flatMap((side) => side.ways.map((way) => ids(way).join(" ")));
    expect(ways?.sort()).toEqual([
      "B3.X:1 W72 SP11 W71 A1.X1:1",
      "B3.X:2 W79 SP13 W78 A1.X1:17",
      "B3.X:3 W89 A1.X1:36",
    ]);
  });

  it("goes through fuse, relay contact and ground to the battery", () => {
    const pump = circuit("M2");
    expect(ids(pump.fuses)).toContain("A3.F10");
    expect(pump.switches).toContainEqual({
      item: { type: "element", id: "A3.K4" },
      coil: { type: "element", id: "A3.K4-coil" },
    });
    const [motor] = pump.circuits;
    expect(motor?.sides.map((side) => side.role).sort()).toEqual(["ground", "supply"]);
    for (const side of motor?.sides ?? [])
      expect(side.ways[0]?.at(-1)?.id).toBe(side.role === "supply" ? "G2+" : "G2-");
  });

  it("takes a switch that a module reads as a circuit to ground", () => {
    const seat = circuit("S2");
    expect(ids(seat.items)).toEqual(expect.arrayContaining(["A2.X1:7", "W64", "S2.contact", "W65", "GND-C2"]));
  });

  it("never goes on through the supply into another circuit", () => {
    expect(ids(circuit("A1.X1:39").items)).not.toContain("W10");
    expect(ids(circuit("XT1:1").items)).not.toContain("A3.K3-coil");
  });

  it("gives the net of a stub", () => {
    const harness = demo();
    // Fitted on every machine, but leading nowhere without the tiller.
    const answer = findCircuit(harness, item(harness, "W67"));
    expect(answer.kind).toBe("no-circuit");
    expect(answer.kind === "no-circuit" && ids(answer.net)).toEqual(expect.arrayContaining(["W66", "W67", "XC1:8"]));
  });
});

describe("findNet", () => {
  it("joins wires, contacts and splices, nothing else", () => {
    const harness = demo();
    const net = findNet(harness, item(harness, "SP11"));
    expect([...ids(net.items)].sort()).toEqual([
      "A1.X1:1",
      "B3.X:1",
      "B4.X:1",
      "B6.X:1",
      "SP11",
      "W71",
      "W72",
      "W73",
      "W74",
    ]);
    expect(net.labels).toEqual(["5V-A"]);
  });

  it("agrees with the labels of the demo machine wherever no plug joins two of them on purpose", () => {
    const harness = demo();
    for (const wire of harness.fitted.wires.values()) {
      const { labels } = findNet(harness, item(harness, wire.id));
      const isJoinedByJumper = labels.includes("START-2=3");
      const isGround = labels.includes("GND");
      if (!isJoinedByJumper && !isGround) expect(labels).toEqual([wire.net]);
    }
  });
});
