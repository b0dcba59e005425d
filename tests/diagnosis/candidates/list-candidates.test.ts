import { candidateWeight, findScope, listCandidates, listHypotheses, PRIORS } from "ohmward/diagnosis";
import { readingTable, TABLE_KINDS } from "ohmward/simulation";
import { findCircuits } from "ohmward/connectivity";
import { describe, expect, test } from "vitest";
import { demo } from "../demo-job.ts";

const harness = demo();
const candidatesOf = (names: readonly string[], prior = {}) =>
  listCandidates(harness, findScope(harness, names), prior);
const idsOf = (names: readonly string[], prior = {}): ReadonlySet<string> =>
  new Set(candidatesOf(names, prior).map(({ id }) => id));

describe("listCandidates()", () => {
  test("lists every way to fail on the line of a code", () => {
    const ids = idsOf(["FE141"]);
    for (const id of [
      "open W92",
      "short-to-ground W92",
      "open B5.X:1",
      "high-resistance A1.X1:39",
      "open W78@SP13",
      "drift B5.ntc",
      "unplugged B5.X",
    ]) {
      expect(ids).toContain(id);
    }
  });

  test("lists what pulls a shared supply down, but not breaks beside the circuit", () => {
    const ids = idsOf(["FE161", "FE112"]);
    expect(ids).toContain("short-to-ground W74");
    expect(ids).toContain("bridge B6.cell");
    expect(idsOf(["FE112"])).not.toContain("open W74");
  });

  test("follows a relay contact to the circuit of its coil", () => {
    const ids = idsOf(["M1"]);
    expect(ids).toContain("open XT1:1");
    expect(ids).toContain("stuck-open S1.start");
  });

  test("where an output that switches is silent lists what feeds it, but not the coil in the same part", () => {
    // That such a sensor is silent without its supply is common practice, no source.
    const ids = idsOf(["FE201"]);
    expect(ids).toContain("open W101");
    expect(ids).toContain("open W100");
    expect([...ids].filter((id) => id.includes("Y8.coil"))).toEqual([]);
  });

  test("a firm short behind a fuse blows the fuse, a light one does not", () => {
    const short =
      candidatesOf(["G1"]).find(({ id }) => id === "short-to-ground W34") ??
      candidatesOf(["M2"]).find(({ mode }) => mode === "short-to-ground");
    expect(short?.levels[0]?.some(({ kind }) => kind === "blown")).toBe(true);
    expect(short?.levels.at(-1)?.some(({ kind }) => kind === "blown")).toBe(false);
  });

  test("weighs as the table says, with reasons that multiply to the weight", () => {
    const wire = candidatesOf(["FE411"]).find(({ id }) => id === "open W44");
    // 3 m through the tilt hinge: weight of a metre, share of a break, flexing.
    const metres = (harness.fitted.wires.get("W44")?.lengthMm ?? 0) / 1000;
    const expected = PRIORS.items.wire * metres * (PRIORS.modes.wire.open ?? 0) * (PRIORS.hazards.flexing ?? 0);
    expect(wire && candidateWeight(wire)).toBeCloseTo(expected, 12);
    expect(wire?.factors.every(({ why }) => why !== "")).toBe(true);
  });

  test("takes recent work, water, presence and edits into account", () => {
    const weightOf = (id: string, prior: object): number => {
      const found = candidatesOf(["FE141"], prior).find((each) => each.id === id);
      return found ? candidateWeight(found) : 0;
    };
    const told = (conditions: object, touched: readonly string[] = []): object => ({
      complaint: { conditions, recentWork: touched.length > 0 ? [{ text: "work", touched }] : [] },
    });
    const plain = weightOf("open B5.X:1", {});
    expect(weightOf("open B5.X:1", told({}, ["B5.X"]))).toBeCloseTo(plain * PRIORS.recentWork, 12);
    expect(weightOf("unplugged B5.X", told({}, ["B5.X"]))).toBeCloseTo(
      weightOf("unplugged B5.X", {}) * PRIORS.recentWorkMistake,
      12,
    );
    expect(weightOf("resistance B5.X:1", told({ wetness: "wet" }))).toBeCloseTo(
      weightOf("resistance B5.X:1", {}) * PRIORS.wetComplaint,
      12,
    );
    expect(weightOf("intermittent W92", told({ presence: "intermittent" }))).toBeCloseTo(
      weightOf("intermittent W92", {}) * 6,
      12,
    );
    expect(weightOf("open B5.X:1", { edits: [{ of: "contact B5.X:1", factor: 0, origin: "replaced" }] })).toBe(0);
  });

  test("on a build with an option lists what belongs to the option", () => {
    const cold = demo("cold");
    expect(listCandidates(cold, findScope(cold, ["FE241"])).some(({ id }) => id.includes("K11"))).toBe(true);
    expect(findScope(harness, ["K11"]).unknown).toEqual(["K11"]);
  });
});

describe("listHypotheses()", () => {
  test("keeps the candidates of one repair next to each other and shares their weight over the severities", () => {
    const candidates = candidatesOf(["FE141"]);
    const { hypotheses, groups } = listHypotheses(candidates);
    const order = hypotheses.map(({ group }) => group);
    expect(order).toEqual([...order].sort((a, b) => a - b));
    expect(new Set(order).size).toBe(groups.length);
    const sum = (list: readonly number[]): number => list.reduce((all, each) => all + each, 0);
    expect(sum(hypotheses.map(({ weight }) => weight))).toBeCloseTo(sum(candidates.map(candidateWeight)), 9);
  });

  test("every hypothesis of the demo machine can be put into the solver", () => {
    const names = [...new Set(findCircuits(harness).all.map(({ component, serves }) => component ?? serves.id))];
    for (const name of names) {
      const { hypotheses } = listHypotheses(candidatesOf([name]));
      const faultSets = hypotheses.map(({ faults }) => faults);
      const pairs = [{ kind: "dc-voltage" as const, red: "G2+", black: "G2-" }];
      const { kinds } = readingTable(harness, {
        operatingConditions: {},
        states: ["OFF"],
        faultSets,
        pairs,
        reduceAbove: 150,
      });
      const wrong = hypotheses.filter((_, index) => TABLE_KINDS[kinds[index] ?? 0] === "wrong-question");
      expect(wrong.map(({ candidates }) => candidates[0]?.id)).toEqual([]);
    }
  });
});
