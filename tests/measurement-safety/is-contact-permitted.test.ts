import { describe, expect, test } from "vitest";
import { findProbePoints, isContactPermitted, MAKER_FIRST, METER_PROVEN } from "ohmward/measurement-safety";
import { fitDemo, openDemo } from "../demo-harness/open-demo.ts";
import { stateOf } from "./made-up-machine.ts";

const harness = fitDemo(openDemo(), "tiller");

describe("isContactPermitted()", () => {
  test.each([
    ["KOEO", "B3.X:3", "in-line", "dc-voltage", "permitted"],
    ["KOEO", "B3.X.harness:3", "front-probe", "dc-voltage", "permitted"],
    ["KOEO", "G2+", "tip", "test-lamp", "permitted"],
    ["KOEO", "A3.X2.device:1", "fuse-window", "dc-voltage", "permitted"],
    ["CRANK", "C02", "clamp", "clamp", "permitted"],
    ["OFF", "XD1:C", "mating-adapter", "resistance", "permitted"],
    ["CRANK", "A3.X2.device:3", "relay-extension", "dc-voltage", "permitted"],
    ["KOEO", "B3.X:3", "back-probe", "dc-voltage", "no-back-probe-sealed"],
    ["KOEO", "A2.X1:7", "back-probe", "dc-voltage", "no-back-probe-unsealed"],
    ["KOEO", "W89", "pierce", "dc-voltage", "no-piercing"],
    ["KOEO", "SP11", "pierce", "dc-voltage", "no-piercing"],
    ["KOEO", "SP11", "tip", "dc-voltage", "nothing-bare"],
    ["KOEO", "A1#gnd", "tip", "dc-voltage", "nothing-bare"],
    ["KOEO", "XP1o:2", "tip", "dc-voltage", "no-tip-in-socket"],
    ["KOEO", "B3.X.device:3", "front-probe", "dc-voltage", "no-device-half"],
    ["KOEO", "XC1c:1", "front-probe", "dc-voltage", "not-permitted-here"],
    ["KOEO", "XP1i:1", "in-line", "dc-voltage", "no-adapter"],
    ["KOEO", "GND-C1", "fuse-window", "dc-voltage", "wrong-place"],
    ["KOEO", "G2+", "screw", "dc-voltage", "wrong-place"],
    ["KOEO", "B3.X:3", "in-line", "resistance", "ohms-live"],
    ["OFF", "S10.1", "tip", "resistance", "ohms-on-battery"],
    ["OFF", "A1.X2.device:1", "in-line", "resistance", "ohms-into-module"],
    ["KOEO", "XD1:C", "mating-adapter", "test-lamp", "lamp-needs-battery-power"],
    ["RUN", "XP1o:3", "in-line", "dc-voltage", "boosted-line"],
    ["CRANK", "M1.50", "tip", "dc-voltage", "turning-parts"],
    ["RUN", "XF1e:1", "in-line", "dc-voltage", "out-of-reach"],
    ["KOEO", "W89", "clamp", "dc-voltage", "wrong-meter"],
    ["KOEO", "G2+", "tip", "clamp", "wrong-meter"],
  ] as const)("%s: %s by %s in %s is %s", (...row) => {
    const [state, point, method, meter, expected] = row;
    const answer = isContactPermitted(harness, stateOf(harness, state), { point, method, meter });
    expect(answer.kind === "refused" ? answer.rule : answer.kind).toBe(expected);
  });

  test.each(["XT1j:1", "B3.X:9", "W24", "nothing", "B99.X:1"])("knows no fitted point %s", (point) => {
    expect(
      isContactPermitted(harness, stateOf(harness, "KOEO"), { point, method: "tip", meter: "dc-voltage" }),
    ).toEqual({
      kind: "unknown-point",
      point,
    });
  });

  test("carries the class and the cautions", () => {
    const answer = isContactPermitted(harness, stateOf(harness, "KOEO"), {
      point: "G2+",
      method: "tip",
      meter: "dc-voltage",
    });
    if (answer.kind !== "permitted") throw new Error(answer.kind);
    expect(answer.class).toBe("P1");
    expect(answer.cautions[0]).toBe(MAKER_FIRST);
    expect(answer.cautions).toContain(METER_PROVEN);
    expect(answer.cautions.join(" ")).toContain("explosive gas");
  });

  test("agrees with findProbePoints() on every point and refusal of every state", () => {
    let count = 0;
    for (const state of harness.document.states) {
      const { points, refused } = findProbePoints(harness, { nodes: [...harness.nodes.keys()] }, state);
      for (const { method, at, item, meters } of points)
        for (const meter of meters) {
          count++;
          const answer = isContactPermitted(harness, state, { point: at ?? item.id, method, meter });
          expect(answer.kind, `${state.id} ${method} ${at ?? item.id} ${meter}`).toBe("permitted");
        }
      for (const { method, at, item, rule } of refused) {
        if (rule === "no-adapter") continue;
        count++;
        const answer = isContactPermitted(harness, state, {
          point: at ?? item.id,
          method,
          meter: method === "clamp" ? "clamp" : "dc-voltage",
        });
        expect(answer, `${state.id} ${method} ${at ?? item.id}`).toMatchObject({ kind: "refused", rule });
      }
    }
    expect(count).toBeGreaterThan(5_000);
  });
});
