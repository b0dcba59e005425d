import { describe, expect, test } from "vitest";
import { seededRandom } from "ohmward/base";
import { ohmBetween } from "ohmward/simulation";
import { exactVolts, toNumber } from "../support/exact-network.ts";
import { randomNetwork, solved } from "../support/networks.ts";
import { lookFromTwoPoints, reduceNetwork, type DcNetwork } from "../support/plain-network.ts";

// Against Gauss elimination in whole-number fractions, written for this test: nothing in it is rounded. Confidence high.

function worstShare(network: DcNetwork): number {
  const found = solved(network).volts;
  return exactVolts(network, 0).reduce((worst, exact, node) => {
    const wanted = toNumber(exact);
    return Math.max(worst, wanted === 0 ? Math.abs(found[node] ?? 1) : Math.abs((found[node] ?? 0) / wanted - 1));
  }, 0);
}

describe("solveNetwork() against exact fractions", () => {
  test.each([
    ["10 ohm to 100 kohm", 10, 1e5],
    ["1 mohm to 1 Mohm", 1e-3, 1e6],
    ["0.1 mohm to 1 Gohm", 1e-4, 1e9],
    ["0.1 mohm to 1 Tohm", 1e-4, 1e12],
  ])("is right to 1e-12 at every node with %s", (_name, leastOhm, mostOhm) => {
    const random = seededRandom(1911);
    let worst = 0;
    for (let count = 0; count < 60; count++) {
      const nodes = random.integer(3, 14);
      worst = Math.max(
        worst,
        worstShare(randomNetwork(random, { nodes, extra: random.integer(0, 12), leastOhm, mostOhm })),
      );
    }
    expect(worst).toBeLessThan(1e-12);
  });

  test("a chain of 0.1 mohm wires with 1 Tohm in it and nothing else loses nothing (ordinary elimination gives 6.93 V)", () => {
    const wires = Array.from({ length: 12 }, (_, at) => ({ from: at + 1, to: at + 2, ohm: at === 6 ? 1e12 : 1e-4 }));
    const network = { nodeCount: 14, branches: [{ from: 0, to: 1, ohm: 1e-4, volt: 12.6 }, ...wires] };
    for (const volt of solved(network).volts.slice(1)) expect(Math.abs(volt - 12.6)).toBeLessThan(1e-14);
  });

  test("several sources are right to 1e-12 of the largest of them", () => {
    const random = seededRandom(7);
    for (let count = 0; count < 40; count++) {
      const base = randomNetwork(random, { nodes: random.integer(4, 12), extra: 6, leastOhm: 1e-3, mostOhm: 1e9 });
      const branches = base.branches.map((branch, at) =>
        at % 3 === 1 ? { ...branch, volt: random.pick([5, -2.5, 14.3]) } : branch,
      );
      const network = { ...base, branches };
      const found = solved(network).volts;
      exactVolts(network, 0).forEach((exact, node) => {
        expect(Math.abs((found[node] ?? 0) - toNumber(exact))).toBeLessThan(14.3e-12);
      });
    }
  });
});

describe("what is seen from two nodes, against exact fractions", () => {
  const random = seededRandom(23);
  const networks = Array.from({ length: 40 }, () =>
    randomNetwork(random, { nodes: random.integer(3, 10), extra: 6, leastOhm: 1e-4, mostOhm: 1e12 }),
  );

  test("lookFromTwoPoints() is right to 1e-12 for any spread", () => {
    for (const network of networks) {
      const last = network.nodeCount - 1;
      const seen = lookFromTwoPoints(network, last, 0);
      if (seen.kind !== "connected") throw new Error(seen.kind);
      const dead = network.branches.map((branch) => ({ ...branch, volt: 0 }));
      // 1 kV behind 1 Mohm at the two nodes; the voltage there tells the resistance.
      const probe = { from: 0, to: last, ohm: 1e6, volt: 1000 };
      const volt = exactVolts({ ...network, branches: [...dead, probe] }, 0)[last];
      if (!volt) throw new Error("no voltage");
      const wanted = toNumber({ top: volt.top * 1_000_000n, bottom: 1000n * volt.bottom - volt.top });
      expect(Math.abs(seen.ohm / wanted - 1)).toBeLessThan(1e-12);
      const open = toNumber(exactVolts(network, 0)[last] ?? volt);
      expect(Math.abs(seen.openVolt - open)).toBeLessThanOrEqual(1e-12 * Math.abs(open));
    }
  });

  test("ohmBetween(), which reuses a solution, is right to 1e-7 for any spread and 1e-11 for 1 mohm to 1 Mohm", () => {
    const usual = Array.from({ length: 40 }, () =>
      randomNetwork(random, { nodes: 9, extra: 5, leastOhm: 1e-3, mostOhm: 1e6 }),
    );
    for (const [list, share] of [
      [networks, 1e-7],
      [usual, 1e-11],
    ] as const) {
      for (const network of list) {
        const last = network.nodeCount - 1;
        const seen = lookFromTwoPoints(network, last, 1);
        if (seen.kind !== "connected") throw new Error(seen.kind);
        expect(Math.abs(ohmBetween(solved(network), last, 1) / seen.ohm - 1)).toBeLessThan(share);
      }
    }
  });

  test("reduceNetwork() changes nothing for the kept nodes", () => {
    for (const network of networks) {
      const keep = [0, 1, network.nodeCount - 1].filter((node, at, all) => all.indexOf(node) === at);
      const reduced = reduceNetwork(network, keep);
      if (reduced.kind !== "reduced") throw new Error(reduced.kind);
      const small = solved(reduced.network).volts;
      const exact = exactVolts(network, 0);
      keep.forEach((node, at) => {
        const wanted = toNumber(exact[node] ?? { top: 0n, bottom: 1n });
        expect(Math.abs((small[at] ?? 0) - wanted)).toBeLessThanOrEqual(1e-12 * Math.abs(wanted));
      });
    }
  });
});
