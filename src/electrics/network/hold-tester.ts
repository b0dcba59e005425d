import { ohmBetween, voltsOfUnitCurrent } from "../solver/ask-solved.ts";
import type { SolvedNetwork } from "../solver/solve-network.ts";

/** A resistance held between two nodes of a circuit that was solved without it. */
export interface Tester {
  readonly red: number;
  readonly black: number;
  readonly ohm: number;
}

/** A circuit with a tester held to it. */
export interface Held {
  readonly solved: SolvedNetwork;
  /** Resistance between two nodes, in ohm. */
  readonly ohmBetween: (first: number, second: number) => number;
}

/**
 * The voltages of a solved network with a tester held to it, by superposition: the tester draws what the equivalent source between its
 * tips gives, and that current changes every voltage in proportion. The network is not solved again.
 *
 * Source: Thevenin's theorem and superposition (textbook).
 *
 * @param solved The network without the tester.
 * @param tester The tester; between two islands it carries no current and makes them one.
 * @returns The voltages, and the resistance between two nodes as the tester leaves it.
 */
export function withTesterHeld(solved: SolvedNetwork, tester: Tester): Held {
  return {
    solved: holdTester(solved, tester),
    ohmBetween: (first, second) => ohmBesideTester(solved, tester, [first, second]),
  };
}

function holdTester(solved: SolvedNetwork, { red, black, ohm }: Tester): SolvedNetwork {
  const open = (solved.volts[red] ?? 0) - (solved.volts[black] ?? 0);
  if (solved.islands[red] !== solved.islands[black]) return joinIslands(solved, { red, black, open });
  const ampere = open / (ohm + ohmBetween(solved, red, black));
  if (ampere === 0) return solved;
  const unitVolts = voltsOfUnitCurrent(solved, red, black);
  const volts = solved.volts.slice();
  for (let node = 0; node < volts.length; node++) volts[node] = (volts[node] ?? 0) - ampere * (unitVolts[node] ?? 0);
  return { ...solved, volts };
}

/** The island of the red tip comes to stand at the voltage of the black one. */
function joinIslands(
  solved: SolvedNetwork,
  { red, black, open }: { readonly red: number; readonly black: number; readonly open: number },
): SolvedNetwork {
  const [ofRed, ofBlack] = [solved.islands[red] ?? -1, solved.islands[black] ?? -1];
  const volts = solved.volts.slice();
  const islands = solved.islands.slice();
  for (let node = 0; node < volts.length; node++) {
    if (islands[node] !== ofRed) continue;
    islands[node] = ofBlack;
    volts[node] = (volts[node] ?? 0) - open;
  }
  return { ...solved, volts, islands };
}

/**
 * Resistance between two nodes with a tester held to the circuit. Inside one island the tester, large against what is there, is left
 * out; between the two that it joins everything passes through it.
 */
function ohmBesideTester(bare: SolvedNetwork, tester: Tester, [first, second]: readonly [number, number]): number {
  const { islands } = bare;
  if (islands[first] === islands[second]) return ohmBetween(bare, first, second);
  const tips = [tester.red, tester.black];
  const ways = [first, second].map((node) => {
    const tip = tips.find((each) => islands[each] === islands[node]);
    return tip === undefined ? Infinity : ohmBetween(bare, node, tip);
  });
  return ways.reduce((sum, ohm) => sum + ohm, tester.ohm);
}
