import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { openDemo } from "../../demo-harness/open-demo.ts";
import { solved } from "../../simulation/support/networks.ts";
import { demoDecks } from "./demo-decks.ts";
import { readKept } from "./kept.ts";
import { referenceNetworks } from "./reference-networks.ts";
import { findNgspice, runNgspice } from "./run-ngspice.ts";
import { writeDeck, type DeckNetwork } from "./write-deck.ts";

// Source: ngspice, an independent circuit simulator (its answers are kept here, its version in the first line). Confidence high where
// resistances lie within 1e9 of each other; beyond that ngspice itself loses digits, and exact fractions take over (exact.test.ts).

const fileText = (name: string): string => readFileSync(new URL(name, import.meta.url), "utf8");

const networks = referenceNetworks();
const demo = demoDecks(openDemo());
const decks = { networks: writeDeck("ohmward networks", networks), demo: writeDeck("ohmward demo", demo) };
const kept = { networks: readKept(fileText("networks.volts.txt")), demo: readKept(fileText("demo.volts.txt")) };

/** Largest difference of a node voltage as a share of it, voltages below 0.1 V counting as 0.1 V; and how many were compared. */
function worstShare(list: readonly DeckNetwork[], answers: ReadonlyMap<string, number>): readonly [number, number] {
  let worst = 0;
  let count = 0;
  for (const { name, network, reference } of list) {
    const { volts, islands } = solved(network, reference);
    volts.forEach((volt, node) => {
      if (node === reference || islands[node] !== islands[reference]) return;
      const answer = answers.get(`n${name}_${node}`);
      if (answer === undefined) throw new Error(`ngspice has no voltage for node ${node} of ${name}`);
      worst = Math.max(worst, Math.abs(volt - answer) / Math.max(0.1, Math.abs(answer)));
      count++;
    });
  }
  return [worst, count];
}

describe("node voltages against the kept answers of ngspice", () => {
  test.each([
    ["w", "10 ohm to 100 kohm", 1e-9],
    ["x", "1 mohm to 1 Mohm", 1e-6],
  ])("100 generated networks %s..., %s: within %f", (letter, _spread, limit) => {
    const [worst, count] = worstShare(
      networks.filter(({ name }) => name.startsWith(letter)),
      kept.networks,
    );
    expect(worst).toBeLessThan(limit);
    expect(count).toBeGreaterThan(2500);
  });

  test("the demo machine in all its states and builds: every voltage within 1e-6", () => {
    const [worst, count] = worstShare(demo, kept.demo);
    expect(worst).toBeLessThan(1e-6);
    expect(count).toBe(kept.demo.size);
    expect(demo.length).toBe(24);
  });

  test("the kept decks are those that are written now; if not, run write-reference.ts", () => {
    for (const name of ["networks", "demo"] as const) expect(fileText(`${name}.cir`) === decks[name]).toBe(true);
  });
});

describe.skipIf(findNgspice() === undefined)("ngspice run again (needs ngspice)", () => {
  test.each(["networks", "demo"] as const)("%s: answers what was kept (needs ngspice)", (name) => {
    const again = runNgspice(decks[name]);
    expect(again.size).toBe(kept[name].size);
    for (const [node, volt] of kept[name])
      expect(Math.abs((again.get(node) ?? Number.NaN) - volt)).toBeLessThanOrEqual(1e-6 * Math.max(1, Math.abs(volt)));
  });
});
