import { changeSetup, COSTS, makeSetups, type CheckNeed, type WorkSetup } from "ohmward/diagnosis";
import { describe, expect, test } from "vitest";
import { demo } from "../demo-job.ts";

const { states } = demo().document;
const byId = new Map(states.map((state): [string, (typeof states)[number]] => [state.id, state]));
const change = (from: WorkSetup, need: CheckNeed): ReturnType<typeof changeSetup> =>
  changeSetup(from, need, { byId, costs: COSTS });
const start: WorkSetup = { state: "OFF", unplugged: [], reached: [] };
const place = { key: "connector XC1", minutes: 8 };

describe("changeSetup()", () => {
  test("reaching a place costs once, and what is open stays open", () => {
    const first = change(start, { state: "OFF", unplugged: ["XC1"], places: [place] });
    expect(first.minutes).toBe(8);
    expect(change(first.next, { state: "OFF", unplugged: ["XC1"], places: [place] }).minutes).toBe(0);
  });

  test("closing costs, and opening again costs less than the first time", () => {
    const opened = change(start, { state: "OFF", unplugged: ["XC1"], places: [place] }).next;
    const closed = change(opened, { state: "OFF", unplugged: [], places: [] });
    expect(closed.minutes).toBe(COSTS.closeMinutes);
    expect(change(closed.next, { state: "OFF", unplugged: ["XC1"], places: [place] }).minutes).toBe(
      COSTS.reopenMinutes,
    );
  });

  test("a change of state costs, and nothing is unplugged with the key on", () => {
    const on = change(start, { state: "KOEO", unplugged: [], places: [] });
    expect(on.minutes).toBe(COSTS.isolateMinutes / 2 + COSTS.keyMinutes);
    const open = change(on.next, { state: "KOEO", unplugged: ["XC1"], places: [place] });
    expect(open.minutes).toBe(8 + 2 * COSTS.keyMinutes);
    expect(change(on.next, { state: "CRANK", unplugged: [], places: [] }).minutes).toBe(COSTS.crankMinutes);
  });
});

describe("makeSetups()", () => {
  test("numbers stand for the same set-up and give the same costs", () => {
    const setups = makeSetups(states);
    const need = setups.needOf({ state: "KOEO", unplugged: [], places: [place] });
    const from = setups.numberOf(start);
    expect(setups.numberOf({ ...start })).toBe(from);
    const { minutes, next } = setups.change(from, need);
    expect(setups.change(from, need)).toEqual({ minutes, next });
    expect(setups.setupOf(next)).toEqual({ state: "KOEO", unplugged: [], reached: ["connector XC1"] });
    expect(setups.change(next, need).minutes).toBe(0);
  });
});
