import { describe, expect, test } from "vitest";
import { naturalOrder } from "ohmward/base";
import {
  applyFaults,
  nearbySolutions,
  ohmBetween,
  settle,
  voltsOfUnitCurrent,
  withHiddenTimes,
  withReadyPlaces,
  type Fault,
  type OperatingPoint,
} from "ohmward/simulation";
import { fitDemo, openDemo } from "../../demo-harness/open-demo.ts";
import { operatingPointIn } from "../support/small-machine.ts";

const document = openDemo();
const harness = fitDemo(document, "cold-tiller");
const wires = [...harness.fitted.wires.keys()].sort(naturalOrder);

/** What must not depend on the way it was worked out. */
function expectSame(near: OperatingPoint, full: OperatingPoint): void {
  const { solved, list, modes } = full;
  expect([...near.modes.energised].sort(), "energised").toEqual([...modes.energised].sort());
  expect(new Map(near.modes.units), "units").toEqual(modes.units);
  expect(new Map(near.modes.regimes), "regimes").toEqual(modes.regimes);
  let [worst, parted] = [0, 0];
  solved.volts.forEach((volt, node) => {
    const isTied = solved.islands[node] === solved.islands[list.reference];
    if (isTied !== (near.solved.islands[node] === near.solved.islands[list.reference])) parted++;
    else if (isTied) worst = Math.max(worst, Math.abs(volt - (near.solved.volts[node] ?? NaN)));
  });
  expect(parted, "nodes that float in one way only").toBe(0);
  expect(worst, "volt").toBeLessThan(1e-7);
}

describe.each(document.states.map(({ id }) => id))("in %s, faults solved from the healthy machine", (state) => {
  const { list, modes } = operatingPointIn(harness, { state });
  const touching: readonly Fault[] = wires
    .filter((_, index) => index % 5 === 0)
    .map((of) => ({ kind: "short", of, to: "G2-", ohm: 0.5 }));
  const ready = withReadyPlaces(harness, list, touching);
  // Every fourth in each state, others in the next one.
  const turn = document.states.findIndex(({ id }) => id === state);
  const owners = [...new Set(list.parts.filter(({ volt }) => volt === 0).map(({ owner }) => owner))].filter(
    (_, index) => (index + turn) % 4 === 0,
  );
  const ways: readonly (readonly [string, typeof list, readonly Fault[]])[] = [
    ["opens", list, owners.map((of) => ({ kind: "open", of }))],
    ["added resistance", list, owners.map((of) => ({ kind: "high-resistance", of, ohm: 4.7 }))],
    ["shorts to ground", ready, touching],
  ];

  test.each(ways)("%s leave everything as if it was solved in full", (_, base, faults) => {
    const nearby = nearbySolutions(base, modes.besideOhm);
    const lessHidden = nearbySolutions(base, modes.besideOhm, 0.1);
    let changed = 0;
    for (const fault of faults) {
      const faulty = applyFaults(harness, base, [fault]);
      if (!faulty.ok) continue;
      const [near, full] = [settle(faulty.value, undefined, nearby), settle(faulty.value)];
      expect(near.kind, JSON.stringify(fault)).toBe(full.kind);
      if (near.kind !== "settled" || full.kind !== "settled") continue;
      expectSame(near, full);
      const [first, second] = [withHiddenTimes(near, 0.1, lessHidden), withHiddenTimes(full, 0.1)];
      expect(first === undefined).toBe(second === undefined);
      if (first && second) expectSame(first, second);
      if (near.solved.changes) changed++;
    }
    expect(changed).toBeGreaterThan(faults.length / 10);
  });
});

test("resistances and unit currents of a changed solution are those of the full one", () => {
  const { list, modes } = operatingPointIn(harness, { state: document.states[0]?.id ?? "" });
  const nearby = nearbySolutions(list, modes.besideOhm);
  let compared = 0;
  for (const [index, of] of wires.entries()) {
    const faulty = applyFaults(harness, list, [
      { kind: "high-resistance", of, ohm: 12 },
      { kind: "high-resistance", of: wires[(index + 40) % wires.length] ?? "", ohm: 0.3 },
    ]);
    if (!faulty.ok) continue;
    const [near, full] = [settle(faulty.value, undefined, nearby), settle(faulty.value)];
    if (near.kind !== "settled" || full.kind !== "settled") throw new Error("no steady state");
    const { shape } = list;
    for (let at = 0; at < shape.from.length; at += 7) {
      const [from, to] = [shape.from[at] ?? 0, shape.to[at] ?? 0];
      if (full.solved.islands[from] !== full.solved.islands[to]) continue;
      const [a, b] = [ohmBetween(near.solved, from, to), ohmBetween(full.solved, from, to)];
      expect(Math.abs(a - b)).toBeLessThan(1e-9 + 1e-6 * b);
      const [u, v] = [voltsOfUnitCurrent(near.solved, from, to), voltsOfUnitCurrent(full.solved, from, to)];
      expect(Math.abs((u[from] ?? 0) - (u[to] ?? 0) - (v[from] ?? 0) + (v[to] ?? 0))).toBeLessThan(1e-9 + 1e-6 * b);
      if (near.solved.changes) compared++;
    }
  }
  expect(compared).toBeGreaterThan(100);
});
