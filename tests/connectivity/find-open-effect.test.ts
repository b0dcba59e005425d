import { describe, expect, it } from "vitest";
import { findCircuits, findOpenEffect, type OpenEffect } from "ohmward/connectivity";
import { mainTerminals } from "ohmward/harness-model";
import { demo, ids, item } from "./ask-demo.ts";

const without = (text: string, build = "base"): OpenEffect => findOpenEffect(demo(build), item(demo(build), text));
const stopped = (answer: OpenEffect): readonly string[] => answer.stopped.map((each) => each.item.id);

describe("findWithout", () => {
  it("stops the starter, through its relay, when the jumper plug is out", () => {
    const answer = without("XT1");
    expect(answer.stopped.map((each) => [each.item.id, each.lost, each.because?.id])).toEqual([
      ["A3.K1-coil", ["supply"], undefined],
      ["M1.hold", ["supply"], "A3.K1-coil"],
      ["M1.motor", ["supply"], "M1.hold"],
    ]);
  });

  it("stops the tiller valve too where the tiller is fitted", () => {
    expect(stopped(without("XT1", "tiller"))).toContain("Y9.coil");
  });

  it("takes the sensors with their shared return", () => {
    expect(stopped(without("W78"))).toEqual(["B3.cell", "B4.cell", "B4.ntc", "B5.ntc", "B6.cell"]);
    expect(stopped(without("W81"))).toEqual(["B5.ntc"]);
  });

  it("keeps what another wire still feeds", () => {
    const answer = without("W02");
    expect(answer.stopped).toEqual([]);
    expect(ids(answer.stillFed)).toContain("A1.supply");
  });

  it("names a dead module once and what it drove after it", () => {
    const answer = without("A3.F1");
    expect(stopped(answer).filter((id) => id.startsWith("A1"))).toEqual(["A1"]);
    expect(answer.stopped.find((each) => each.item.id === "Y7.coil")?.because).toEqual({ type: "component", id: "A1" });
    expect(answer.stopped.find((each) => each.item.id === "M2.motor")?.because).toEqual({
      type: "element",
      id: "A3.K4-coil",
    });
  });

  it("stops a part that is itself taken out", () => {
    expect(without("B5").stopped).toMatchObject([{ item: { id: "B5.ntc" }, lost: ["itself"] }]);
  });

  it("stops nothing that is not on the way, for every wire of the machine", () => {
    const harness = demo();
    const { positive, negative } = mainTerminals(harness);
    expect([positive, negative].map((node) => harness.nodes[node ?? -1]?.key)).toEqual(["G2+", "G2-"]);
    const circuits = findCircuits(harness).all;
    for (const wire of harness.fitted.wires.values()) {
      const answer = without(wire.id);
      for (const each of answer.stopped) {
        if (each.because) continue;
        const own = circuits.filter(
          (circuit) => circuit.serves.id === each.item.id || circuit.component === each.item.id,
        );
        const edge = harness.edgeNumbers.get(wire.id) ?? -1;
        expect(own.some((circuit) => circuit.edges.has(edge))).toBe(true);
      }
    }
  });
});
