import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { seededRandom } from "ohmward/base";
import { ohmBetween, voltsOfUnitCurrent } from "ohmward/simulation";
import { randomNetwork, resistance, solved } from "../support/networks.ts";
import { reduceNetwork, solveNetwork, type DcNetwork } from "../support/plain-network.ts";

// Laws of linear networks (textbook, confidence high) on random networks with a fixed seed.

const networks = fc
  .record({ seed: fc.integer(), nodes: fc.integer({ min: 3, max: 30 }), extra: fc.integer({ min: 0, max: 40 }) })
  .map(({ seed, nodes, extra }) => randomNetwork(seededRandom(seed), { nodes, extra, leastOhm: 1e-3, mostOhm: 1e6 }));

const law = (name: string, holds: (network: DcNetwork) => void): void => {
  test(name, () => fc.assert(fc.property(networks, holds), { seed: 45, numRuns: 120 }));
};

const siemens = (ohm: number): number => 1 / ohm;

describe("a solved network", () => {
  law("has no current left over at any node (Kirchhoff), and takes as much power as its sources give", (network) => {
    const { volts } = solved(network);
    const left = new Float64Array(network.nodeCount);
    const flow = new Float64Array(network.nodeCount);
    let given = 0;
    let taken = 0;
    for (const { from, to, ohm, volt = 0 } of network.branches) {
      const ampere = ((volts[from] ?? 0) - (volts[to] ?? 0) + volt) / ohm;
      // What rounding of the voltages alone does to this current.
      const rounding = (1e-15 * 13) / ohm;
      for (const [node, sign] of [
        [from, -1],
        [to, 1],
      ] as const) {
        left[node] = (left[node] ?? 0) + sign * ampere;
        flow[node] = (flow[node] ?? 0) + Math.abs(ampere) * 1e-12 + rounding;
      }
      given += volt * ampere;
      taken += ampere * ampere * ohm;
    }
    left.forEach((ampere, node) => {
      expect(Math.abs(ampere)).toBeLessThanOrEqual(8 * (flow[node] ?? 0));
    });
    expect(Math.abs(given - taken)).toBeLessThanOrEqual(1e-9 * given + 1e-12);
  });

  law("doubles with its sources", (network) => {
    const twice = network.branches.map((branch) => ({ ...branch, volt: 2 * (branch.volt ?? 0) }));
    const once = solved(network).volts;
    const doubled = solved({ ...network, branches: twice }).volts;
    expect([...doubled]).toEqual([...once].map((volt) => 2 * volt));
  });

  law("is the sum of what its sources do one at a time (superposition)", (network) => {
    const last = network.branches.length - 1;
    const both = network.branches.map((branch, at) => (at === last ? { ...branch, volt: 5 } : branch));
    const second = both.map((branch, at) => (at === last ? branch : { ...branch, volt: 0 }));
    const [first, other, together] = [network.branches, second, both].map(
      (branches) => solved({ ...network, branches }).volts,
    );
    together?.forEach((volt, node) => {
      expect(Math.abs(volt - (first?.[node] ?? 0) - (other?.[node] ?? 0))).toBeLessThan(1e-12);
    });
  });

  law("does not care how its nodes are numbered", (network) => {
    const turned = seededRandom(3).shuffle(Array.from({ length: network.nodeCount }, (_, node) => node));
    const branches = network.branches.map((branch) => ({
      ...branch,
      from: turned[branch.from] ?? 0,
      to: turned[branch.to] ?? 0,
    }));
    const plain = solved(network).volts;
    const other = solved({ ...network, branches }, turned[0] ?? 0).volts;
    plain.forEach((volt, node) => {
      expect(Math.abs((other[turned[node] ?? 0] ?? 0) - volt)).toBeLessThan(1e-12);
    });
  });
});

describe("resistances", () => {
  law("are the same both ways, and what 1 A does here it does there (reciprocity)", (network) => {
    const done = solved(network);
    const [a, b] = [0, network.nodeCount - 1];
    expect(ohmBetween(done, a, b)).toBe(ohmBetween(done, b, a));
    const [p, q] = [1, Math.floor(network.nodeCount / 2)];
    const ab = voltsOfUnitCurrent(done, a, b);
    const pq = voltsOfUnitCurrent(done, p, q);
    const there = (ab[p] ?? 0) - (ab[q] ?? 0);
    const here = (pq[a] ?? 0) - (pq[b] ?? 0);
    expect(Math.abs(there - here)).toBeLessThanOrEqual(1e-9 * ohmBetween(done, a, b) + 1e-9 * ohmBetween(done, p, q));
  });

  law("times conductances add up to the nodes less one (Foster)", (network) => {
    const done = solved(network);
    const sum = network.branches.reduce(
      (total, { from, to, ohm }) => total + siemens(ohm) * ohmBetween(done, from, to),
      0,
    );
    expect(Math.abs(sum - (network.nodeCount - 1))).toBeLessThan(1e-9 * network.nodeCount);
  });

  law("never grow when a branch is added (Rayleigh)", (network) => {
    const added = { ...network, branches: [...network.branches, { from: 1, to: network.nodeCount - 1, ohm: 3 }] };
    const [before, after] = [solved(network), solved(added)];
    for (let node = 1; node < network.nodeCount; node++)
      expect(ohmBetween(after, 0, node)).toBeLessThanOrEqual(ohmBetween(before, 0, node) * (1 + 1e-12));
  });

  law("grow to R / (1 - R / r) across a branch r that is taken out", (network) => {
    const at = network.branches.length - 1;
    const branch = network.branches[at];
    if (!branch) throw new Error("no branch");
    const before = resistance(network, branch.from, branch.to);
    // Close to a bridge the quotient cancels and says nothing.
    fc.pre(before < 0.99 * branch.ohm);
    const without = { ...network, branches: network.branches.toSpliced(at, 1) };
    const wanted = before / (1 - before / branch.ohm);
    expect(Math.abs(resistance(without, branch.from, branch.to) / wanted - 1)).toBeLessThan(1e-9);
  });

  law("stay the same when a star becomes its mesh", (network) => {
    const last = network.nodeCount - 1;
    const keep = Array.from({ length: last }, (_, node) => node);
    const reduced = reduceNetwork(network, keep);
    if (reduced.kind !== "reduced") throw new Error(reduced.kind);
    for (let node = 1; node < last; node++)
      expect(Math.abs(resistance(reduced.network, 0, node) / resistance(network, 0, node) - 1)).toBeLessThan(1e-9);
  });
});

describe("solveNetwork() on what is open, joined or at odds", () => {
  test("a ring of one source and 12 ohm shares 12 V by resistance; a node beside it is an island", () => {
    const branches = [
      { from: 0, to: 1, ohm: 2, volt: 12 },
      { from: 1, to: 2, ohm: 4 },
      { from: 2, to: 0, ohm: 6 },
    ];
    const { volts, islands } = solved({ nodeCount: 4, branches });
    expect([...volts.slice(0, 3)].map((volt) => Number(volt.toFixed(12)))).toEqual([0, 10, 6]);
    expect(islands[3]).not.toBe(islands[0]);
  });

  test("nodes without a way to each other are islands, and an open is no way", () => {
    const branches = [
      { from: 0, to: 1, ohm: 1, volt: 12 },
      { from: 1, to: 2, ohm: Infinity },
      { from: 2, to: 3, ohm: 5, volt: 1.5 },
    ];
    const done = solved({ nodeCount: 5, branches });
    const [home, with1, apart, with3, alone] = done.islands;
    expect(with1).toBe(home);
    expect(apart).not.toBe(home);
    expect(with3).toBe(apart);
    expect(new Set([home, apart, alone]).size).toBe(3);
    expect((done.volts[3] ?? 0) - (done.volts[2] ?? 0)).toBeCloseTo(1.5, 14);
    expect(ohmBetween(done, 1, 2)).toBe(Infinity);
  });

  test("ideal joins make one node, and a source without resistance fixes a difference", () => {
    const branches = [
      { from: 0, to: 1, ohm: 0, volt: 12 },
      { from: 1, to: 2, ohm: 0 },
      { from: 2, to: 3, ohm: 4 },
      { from: 3, to: 0, ohm: 8 },
    ];
    expect([...solved({ nodeCount: 4, branches }).volts]).toEqual([0, 12, 12, 8]);
    expect([...solved({ nodeCount: 4, branches }, 2).volts]).toEqual([-12, 0, 0, -4]);
  });

  test("sources that cannot all be true are named, with what joins them; those that agree are not", () => {
    const batteries = (volt: number) => ({
      nodeCount: 4,
      branches: [
        { from: 0, to: 1, ohm: 0, volt: 12 },
        { from: 3, to: 2, ohm: 7 },
        { from: 0, to: 2, ohm: 0, volt },
        { from: 1, to: 2, ohm: 0 },
      ],
    });
    expect(solveNetwork(batteries(13), 0)).toEqual({ kind: "contradictory", branches: [0, 2, 3] });
    expect(solveNetwork(batteries(12), 0).kind).toBe("solved");
    const shorted = { nodeCount: 2, branches: [{ from: 0, to: 0, ohm: 0, volt: 5 }] };
    expect(solveNetwork(shorted, 0)).toEqual({ kind: "contradictory", branches: [0] });
  });

  test.each([
    [{ from: 0, to: 2, ohm: 1 }, "no node 2"],
    [{ from: 0, to: 1, ohm: -1 }, "-1 ohm"],
    [{ from: 0, to: 1, ohm: Number.NaN }, "NaN ohm"],
    [{ from: 0, to: 1, ohm: 1, volt: Infinity }, "Infinity V"],
  ])("throws for a branch that is none: %o", (branch, text) => {
    expect(() => solveNetwork({ nodeCount: 2, branches: [branch] }, 0)).toThrow(text);
  });
});
